/** New pieces for the drawing: items from gear, and racks from the catalogue's tubes. Pure: ids follow from the setup. */
import type { Gear, GearOf } from '../../../gear/schema.ts';
import { bendOfTube } from '../../../plan/bow.ts';
import type { Bar, Bend, Item, Leg, Piece, Plan, Rack, Setup, Span } from '../../../plan/schema.ts';
import { secondPedal } from '../../../plan/secondPedal.ts';

/** The first of `name(1)`, `name(2)` ... that is not taken. */
export function firstFree(name: (n: number) => string, taken: Iterable<string>): string {
  const used = new Set(taken);
  let n = 1;
  while (used.has(name(n))) n++;
  return name(n);
}

/** The first of `name`, `name 2`, `name 3` ... that is not taken. */
export const freeName = (name: string, taken: Iterable<string>): string =>
  firstFree((n) => (n === 1 ? name : `${name} ${n}`), taken);

/** The first of `base`, `base-2`, `base-3` ... that is not taken. */
export const freeId = (base: string, taken: Iterable<string>): string =>
  firstFree((n) => (n === 1 ? base : `${base}-${n}`), taken);

type Pieces = Readonly<Record<string, Piece>>;

/** An id and a name that none of the things has. */
export const identity = (
  base: string,
  name: string,
  things: readonly { readonly id: string; readonly name: string }[],
) => ({
  id: freeId(
    base,
    things.map(({ id }) => id),
  ),
  name: freeName(
    name,
    things.map((one) => one.name),
  ),
});

/** The id part of a piece made from gear: what survives of the gear's id within the schema's length. */
const baseId = (gearId: string) => gearId.slice(0, 60);

/** A piece of this gear standing at (x, y), facing the audience, held by nothing yet. */
export function newItem(gear: Gear, xMm: number, yMm: number, pieces: Pieces): Item {
  return {
    kind: 'item',
    ...identity(baseId(gear.id), gear.name, Object.values(pieces)),
    gear: gear.id,
    place: { xMm, yMm, headingDeg: 0 },
    mount: null,
  };
}

/** The same in a setup: a double pedal's second pedal under the foot that plays the hi-hat. */
export function placedItem(plan: Pick<Plan, 'gear'>, setup: Setup, gear: Gear, xMm: number, yMm: number): Item {
  const item = newItem(gear, xMm, yMm, setup.pieces);
  return gear.kind === 'pedal' && gear.use === 'double' ? { ...item, second: secondPedal(plan, setup, item) } : item;
}

export type RackForm = 'sideStraight' | 'sideCurved' | 'frontThreeLegs';

export const RACK_FORMS: readonly { readonly id: RackForm; readonly name: string; readonly tells: string }[] = [
  { id: 'sideStraight', name: 'Side rack, straight', tells: 'two legs, one straight bar' },
  { id: 'sideCurved', name: 'Side rack, curved', tells: 'two legs, one curved bar' },
  { id: 'frontThreeLegs', name: 'Front rack, three legs', tells: 'three legs, two straight bars' },
];

/** Wanted sizes, of which the catalogue's nearest are taken. Common practice, no source. */
const WANTED = { sideBarMm: 1219, frontBarMm: 1016, uprightMm: 610, barHeightMm: 540, overhangMm: 50 };

type Tube = GearOf<'tube'>;

function nearestTube(gear: readonly Gear[], use: Tube['use'], curved: boolean, lengthMm: number): Tube | null {
  let best: Tube | null = null;
  for (const one of gear) {
    if (one.kind !== 'tube' || one.use !== use || (one.bendRadiusMm !== undefined) !== curved) continue;
    if (best === null || Math.abs(one.cutLengthMm - lengthMm) < Math.abs(best.cutLengthMm - lengthMm)) best = one;
  }
  return best;
}

/** A rack whose bent bars bow to one side. */
export const bowedTo = (rack: Rack, side: Bend['side']): Rack => ({
  ...rack,
  spans: rack.spans.map((span) => ({
    ...span,
    bars: span.bars.map((bar) => (bar.bend ? { ...bar, bend: { ...bar.bend, side } } : bar)),
  })),
});

function barOf(id: string, tube: Tube): Bar {
  return {
    id,
    tube: tube.id,
    cutLengthMm: tube.cutLengthMm,
    bend: bendOfTube(tube, 'left'),
    overhangMm: WANTED.overhangMm,
    heightMm: WANTED.barHeightMm,
  };
}

/**
 * A rack with its middle near (x, y), or null when the gear has no tubes for it. A side rack runs upstage; a front rack
 * opens towards the player, who sits upstage of it.
 */
export function newRack(form: RackForm, gear: readonly Gear[], xMm: number, yMm: number, pieces: Pieces): Rack | null {
  const front = form === 'frontThreeLegs';
  const barTube = nearestTube(gear, 'bar', form === 'sideCurved', front ? WANTED.frontBarMm : WANTED.sideBarMm);
  const upright = nearestTube(gear, 'upright', false, WANTED.uprightMm);
  if (barTube === null || upright === null) return null;
  const footGear = gear.find((one): one is GearOf<'foot'> => one.kind === 'foot');
  const leg = (id: string): Leg => ({
    id,
    tube: upright.id,
    lengthMm: upright.cutLengthMm,
    // Across the bar, so that the rack does not tip over it.
    foot: footGear === undefined ? null : { gear: footGear.id, lengthMm: footGear.lengthMm, headingDeg: 90 },
  });
  const span = (bar: string, turnDeg: number): Span => ({
    turnDeg,
    farOverhangMm: WANTED.overhangMm,
    bars: [barOf(bar, barTube)],
  });
  // About how far the legs stand apart; only the first place depends on it.
  const reach = Math.round((barTube.cutLengthMm - 2 * WANTED.overhangMm) / 2);
  const base = front ? 'front-rack' : 'side-rack';
  const name = front ? 'Front rack' : 'Side rack';
  return {
    kind: 'rack',
    ...identity(base, name, Object.values(pieces)),
    place: front ? { xMm: xMm - 2 * reach, yMm, headingDeg: -20 } : { xMm, yMm: yMm - reach, headingDeg: 90 },
    legs: front ? [leg('leg-1'), leg('leg-2'), leg('leg-3')] : [leg('leg-1'), leg('leg-2')],
    spans: front ? [span('bar-1', 0), span('bar-2', 40)] : [span('bar-1', 0)],
  };
}
