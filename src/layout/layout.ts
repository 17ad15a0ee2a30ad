/**
 * Plan -> bodies. Everything a setup holds, placed in mm, in the order of the setup.
 *
 * Units:  mm, radians, kg.
 * Speed:  a piece keeps its bodies while it, the gear and its assembly stay the same, so that a drag lays out only what moved.
 * Errors: never thrown for a plan that reads; what cannot be laid out is a problem in the result.
 */
import { type Figure, figureOf } from '../drummer/figure.ts';
import { gearOf, massKgOf, placedMassKg } from '../gear/catalogue.ts';
import {
  heightMmIn,
  isPlaceable,
  type OwnBodied,
  type Placeable,
  type PlaceableKind,
  placedKind,
} from '../gear/kinds.ts';
import type { GearOf } from '../gear/schema.ts';
import { heldMassKg, holdOf } from '../gear/standHolds.ts';
import { closeSeams } from '../geometry/seams.ts';
import { rectangle, type Swept } from '../geometry/shapes.ts';
import { keeper, kept } from '../keep.ts';
import { own } from '../plan/places.ts';
import type { Item, Piece, Plan, Riser } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import { layoutArms } from './armBodies.ts';
import { assemblyRoots } from './assemblies.ts';
import type { Body } from './body.ts';
import { bassDrumBodies, cymbalBodies, drumBodies } from './drums.ts';
import { pedalBodies, standBodies, throneBodies } from './floorGear.ts';
import { type Maker, makeBodies } from './maker.ts';
import { type RackLayout, rackBodies } from './racks.ts';
import type { MountPose } from './reachMounts.ts';
import { seatedOn, standHeight } from './seats.ts';

export interface DeckLayout {
  readonly name: string;
  /** Corners of each module, x0 y0 x1 y1 ..., counter-clockwise; what is clamped together lies flush (geometry/seams.ts). */
  readonly modules: readonly (readonly number[])[];
  readonly heightMm: number;
  readonly ratedKPa: number | null;
  readonly edgeMarginMm: number;
}

/** What could not be laid out as the plan asks. */
export type LayoutProblem =
  | { readonly code: 'unknown_gear'; readonly piece: string; readonly gear: string }
  | { readonly code: 'not_placeable'; readonly piece: string; readonly gear: string }
  | {
      readonly code: 'bend_past_turn' | 'straight_ends_too_long' | 'no_leg_distance' | 'bar_too_short';
      readonly piece: string;
      readonly bar: string;
      readonly missingMm: number | null;
      readonly at: readonly [number, number];
    };

export interface Layout {
  readonly bodies: readonly Body[];
  readonly deck: DeckLayout | null;
  readonly racks: Readonly<Record<string, RackLayout>>;
  /** Every arm and link as it must be set to hold its piece. */
  readonly mounts: readonly MountPose[];
  readonly problems: readonly LayoutProblem[];
  /** The drummer as seated; null where there is no throne. */
  readonly figure: Figure | null;
}

interface PieceLayout {
  readonly bodies: readonly Body[];
  readonly rack: RackLayout | null;
  readonly problems: readonly LayoutProblem[];
}

/** By piece: immer keeps those that a command does not touch. */
const keepPiece = keeper<PieceLayout>();

/** A stand as high as what sits on it needs it; and what is left of its mass where a boom of its own is out. */
function setStand(plan: Plan, item: Item, gear: GearOf<'stand'>, seated: readonly Item[]) {
  const own = massKgOf(gear);
  const heightMm = standHeight(plan.gear, item, gear, seated);
  const holds = seated.map((one) => holdOf(gear, gearOf(plan.gear, one.gear)));
  const out = holds.includes('boom') ? heldMassKg(gear, 'boom') : 0;
  return {
    item: { ...item, place: { ...item.place, heightMm } },
    mass: own === null ? null : Math.max(0, own - out),
  };
}

function itemBodies(plan: Plan, item: Item, assembly: string, seated: readonly Item[] | undefined): PieceLayout {
  const gear = gearOf(plan.gear, item.gear);
  if (!gear) return { rack: null, bodies: [], problems: [{ code: 'unknown_gear', piece: item.id, gear: item.gear }] };
  // Tubes, clamps and arms are never a piece by themselves.
  if (!isPlaceable(gear))
    return { rack: null, bodies: [], problems: [{ code: 'not_placeable', piece: item.id, gear: item.gear }] };
  const { xMm, yMm, headingDeg } = item.place;
  const at = { angle: toRadians(headingDeg), dx: xMm, dy: yMm };
  const set =
    gear.kind === 'stand' && seated
      ? setStand(plan, item, gear, seated)
      : { item, mass: placedMassKg(gear, item.mount !== null) };
  const bodies = makeBodies(item.id, item.name || gear.name, assembly, at, (make) =>
    fillItem(make, gear, set.item, set.mass),
  );
  return { rack: null, bodies, problems: [] };
}

type Fill<K extends PlaceableKind> = (maker: Maker, gear: GearOf<K>, item: Item, massKg: number | null) => void;

/** Kinds whose bodies take more than their row in gear/kinds.ts can say. */
const FILLS: { readonly [K in OwnBodied]: Fill<K> } = {
  drum: drumBodies,
  bassDrum: (make, gear, _, massKg) => bassDrumBodies(make, gear, massKg),
  cymbal: cymbalBodies,
  pedal: pedalBodies,
  throne: throneBodies,
  stand: standBodies,
};

function fillItem(make: Maker, gear: Placeable, item: Item, massKg: number | null): void {
  const { bodies, body } = placedKind(gear);
  if (bodies === 'own') {
    const fill = FILLS[gear.kind as OwnBodied] as unknown as Fill<PlaceableKind>;
    fill(make, gear, item, massKg);
    return;
  }
  const kind = body(gear);
  for (const plain of bodies(gear, heightMmIn(item.place, gear) ?? 0)) make.add({ kind, massKg, ...plain });
}

function pieceLayout(plan: Plan, piece: Piece, assembly: string, seated: readonly Item[] | undefined): PieceLayout {
  if (piece.kind !== 'rack') return itemBodies(plan, piece, assembly, seated);
  const { bodies, layout } = rackBodies(plan, piece);
  const named = assembly === piece.id ? bodies : bodies.map((body) => ({ ...body, assembly }));
  const problems = layout.problems.map((problem): LayoutProblem => {
    const bar = piece.spans[problem.span].bars[problem.bar];
    const leg = layout.legs[problem.span];
    const missingMm = problem.code === 'bar_too_short' ? problem.missingMm : null;
    return { code: problem.code, piece: piece.id, bar: bar?.id ?? '', missingMm, at: [leg.x, leg.y] };
  });
  return { bodies: named, rack: layout, problems };
}

/** A module's corners as it is put down, x0 y0 x1 y1 ..., mm. */
export const moduleCorners = ({ xMm, yMm, widthMm, depthMm, headingDeg }: Riser['modules'][number]) =>
  polygonOf(rectangle(xMm, yMm, widthMm, depthMm, toRadians(headingDeg)));

/** A riser's modules in the plan, clamped together. */
const layoutDeck = kept(
  (riser: Riser): DeckLayout => ({
    name: riser.name,
    modules: closeSeams(riser.modules.map(moduleCorners)),
    heightMm: riser.heightMm,
    ratedKPa: riser.ratedKPa,
    edgeMarginMm: riser.edgeMarginMm,
  }),
);

function polygonOf({ core }: Swept): readonly number[] {
  if (core.kind !== 'polygon') throw new Error('A module is a rectangle.');
  return core.points;
}

/** Throws: Error when the plan has no such setup. */
export function layoutSetup(plan: Plan, setupId: string): Layout {
  const setup = Object.hasOwn(plan.setups, setupId) ? plan.setups[setupId] : undefined;
  if (!setup) throw new Error(`The plan has no setup "${setupId}".`);
  const bodies: Body[] = [];
  const racks: Record<string, RackLayout> = {};
  const problems: LayoutProblem[] = [];
  const roots = assemblyRoots(setup);
  const seats = seatedOn(setup);
  for (const id of setup.order) {
    const piece = own(setup.pieces, id);
    if (piece === undefined) continue;
    const assembly = roots.get(id) ?? id;
    const seated = seats.get(id);
    const made = keepPiece(piece, [plan.gear, assembly, seated], () => pieceLayout(plan, piece, assembly, seated));
    for (const body of made.bodies) bodies.push(body);
    if (made.rack) racks[id] = made.rack;
    for (const problem of made.problems) problems.push(problem);
  }
  const riser = setup.riser !== null && Object.hasOwn(plan.risers, setup.riser) ? plan.risers[setup.riser] : undefined;
  const arms = layoutArms(plan, setup, racks, roots, bodies);
  bodies.push(...arms.bodies);
  return {
    bodies,
    deck: riser ? layoutDeck(riser) : null,
    racks,
    mounts: arms.poses,
    problems,
    figure: figureOf(plan, setup),
  };
}
