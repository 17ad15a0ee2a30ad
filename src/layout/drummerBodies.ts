/**
 * The seated drummer's legs and shoes as bodies: thighs and lower legs as tapering limbs in space, with the heel down and up, shoes as
 * they stand with their toes swung, and the way of a shoe from one of its pedals to the next.
 *
 * They stand beside a layout's bodies and not among them: no area, mass, extent or picture of the kit counts them. A foot without a pedal
 * may be anywhere, and has none.
 *
 * Units: mm.
 */
import type { Figure, Leg } from '../drummer/figure.ts';
import type { Side } from '../drummer/sizes.ts';
import { capsule, type Swept } from '../geometry/shapes.ts';
import type { Point3, Taper } from '../geometry/solids.ts';
import { kept } from '../keep.ts';
import type { Body } from './body.ts';

/** `way`: from one pedal to another. */
export type Limb = 'thigh' | 'shin' | 'shoe' | 'way';

export interface LegBody {
  readonly body: Body;
  readonly side: Side;
  readonly limb: Limb;
  /** The piece on which its foot is; of a way, where it ends. */
  readonly on: string;
  /** The pieces that this foot works, and may touch. */
  readonly works: readonly string[];
}

/** A shoe on its way is lifted over the boards; its middle goes straight. Common practice, no source. */
const WAY_MM = [110, 200] as const;

function taper(
  a: Point3,
  radiusA: number,
  b: Point3,
  radiusB: number,
): { shape: Swept; z: [number, number]; solid: Taper } {
  return {
    shape: capsule(a[0], a[1], b[0], b[1], Math.max(radiusA, radiusB)),
    z: [Math.min(a[2] - radiusA, b[2] - radiusB), Math.max(a[2] + radiusA, b[2] + radiusB)],
    solid: { kind: 'taper', a, radiusA, b, radiusB },
  };
}

const middle = ({ shoe: { heel, toe } }: Leg) => [(heel[0] + toe[0]) / 2, (heel[1] + toe[1]) / 2] as const;

/** Kept with the figure, so that a drag of anything else measures nothing anew. */
export const legBodies = kept((figure: Figure): readonly LegBody[] => {
  const { throne, radiiMm: r } = figure;
  const all: LegBody[] = [];
  for (const side of ['left', 'right'] as const) {
    const legs = figure.legs.filter((leg) => leg.side === side && leg.works !== null);
    const works = [...new Set(legs.flatMap((leg) => leg.works?.piece ?? []))];
    const add = (
      limb: Limb,
      name: string,
      on: string,
      { shape, z, solid }: { shape: Swept; z: readonly [number, number]; solid?: Taper },
    ) => {
      const part = `drummer-${side}-${limb}-${name}`;
      const body: Body = {
        id: `${throne}/${part}`,
        piece: throne,
        part,
        label: 'Drummer',
        kind: 'drummer',
        assembly: throne,
        touchesFloor: false,
        z0: Math.max(0, z[0]),
        z1: z[1],
        shape,
        solid,
        massKg: 0,
        massCentre: null,
      };
      all.push({ body, side, limb, on, works });
    };
    legs.forEach((leg, k) => {
      const on = leg.works?.piece ?? '';
      add('shoe', `${k + 1}`, on, { shape: leg.shoe.swung, z: leg.shoe.z });
      for (const heel of ['down', 'up'] as const) {
        const { knee, ankle } = leg[heel];
        add('thigh', `${k + 1}-${heel}`, on, taper(leg.hip, r.hip, knee, r.knee));
        add('shin', `${k + 1}-${heel}`, on, taper(knee, r.knee, ankle, r.ankle));
      }
      if (k > 0)
        add('way', `${k + 1}`, on, {
          shape: capsule(...middle(legs[0]), ...middle(leg), leg.shoe.radius),
          z: WAY_MM,
        });
    });
  }
  return all;
});
