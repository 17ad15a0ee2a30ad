/** Collects the bodies of one piece: own coordinates in, bodies in the plan out. */
import type { BodyKind } from '../gear/bodyKinds.ts';
import type { Motion } from '../geometry/frame.ts';
import { movePoint } from '../geometry/frame.ts';
import { moved, type Swept } from '../geometry/shapes.ts';
import { type Discs, type Lying, movedSolid, type Rod } from '../geometry/solids.ts';
import type { Body } from './body.ts';

type PlacedSolid = Discs | Rod | Lying;

export interface PartOptions {
  readonly part: string;
  readonly kind: BodyKind;
  /** In the piece's own frame: x to its right, y to its back. */
  readonly shape: Swept;
  readonly z: readonly [number, number];
  /** What it truly is in space, in the same frame; left out where it fills its outline and heights. */
  readonly solid?: PlacedSolid;
  readonly floor?: boolean;
  readonly massKg?: number | null;
  /** Mass centre in the piece's own frame; left out for a part that carries none of the piece's mass. */
  readonly centre?: readonly [number, number, number];
}

export interface Maker {
  add(part: PartOptions): void;
  /** The same maker in a frame within this one, for a second pedal. Parts get the prefix. */
  within(motion: Motion, prefix: string): Maker;
}

export function makeBodies(
  piece: string,
  label: string,
  assembly: string,
  at: Motion,
  fill: (maker: Maker) => void,
): Body[] {
  const bodies: Body[] = [];
  const maker = (
    place: (s: Swept) => Swept,
    placeSolid: (s: PlacedSolid) => PlacedSolid,
    point: (x: number, y: number) => [number, number],
    prefix: string,
  ): Maker => ({
    add({ part, kind, shape, z, solid, floor = false, massKg = 0, centre }) {
      const mass = centre ? massKg : 0;
      bodies.push({
        id: `${piece}/${prefix}${part}`,
        piece,
        part: prefix + part,
        label,
        kind,
        assembly,
        touchesFloor: floor,
        z0: z[0],
        z1: z[1],
        shape: place(shape),
        ...(solid && { solid: placeSolid(solid) }),
        massKg: mass,
        massCentre: centre && mass !== null ? [...point(centre[0], centre[1]), centre[2]] : null,
      });
    },
    within(motion, inner) {
      return maker(
        (s) => place(moved(s, motion)),
        (s) => placeSolid(movedSolid(s, motion)),
        (x, y) => point(...movePoint(motion, x, y)),
        prefix + inner,
      );
    },
  });
  fill(
    maker(
      (s) => moved(s, at),
      (s) => movedSolid(s, at),
      (x, y) => movePoint(at, x, y),
      '',
    ),
  );
  return bodies;
}
