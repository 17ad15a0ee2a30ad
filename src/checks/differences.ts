/**
 * What differs between two setups of a plan. First of all whether the playing layout is the same: that is the constant which
 * a drummer tries racks under.
 *
 * A piece is the same piece where it has the same id. Playing pieces are drums, cymbals, pedals, thrones and hi-hat stands with a
 * footboard: the same where they are the same gear (of a hi-hat stand only its footboard counts, not its legs) at the same place,
 * height, tilt and heading in the kit's own frame: where the kit moved as one, that is said once (kitMove.ts). The heading of what is round and level says nothing and is left out.
 *
 * Units:     mm; degrees counter-clockwise, in (-180, 180].
 * Tolerance: SAME_MM and SAME_DEG, finer than any tape or protractor reads.
 */

import { gearOf } from '../gear/catalogue.ts';
import { heightMmIn, isPlaceable, placedKind } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import { barsOf, carrierPiece } from '../plan/carriers.ts';
import { rackFrame } from '../plan/rackFrame.ts';
import type { Bar, Bend, Carrier, Item, Leg, Mount, Piece, Plan, Rack, Setup, Tie } from '../plan/schema.ts';
import type { ComparedReadings, ComparedSetup } from './compare.ts';
import { type KitMove, kitMove, movedKit, SAME_MM } from './kitMove.ts';
import { type PartRow, partKey, partsOf } from './parts.ts';

const SAME_DEG = 0.05;

/** A field before and after. */
export interface Change<T> {
  readonly from: T;
  readonly to: T;
}

export interface MountChange extends Change<Mount | null> {
  /** Held by another tube, socket or piece, or by nothing. */
  readonly carrier: boolean;
  /** mm along the same tube: along a bar from its start, up an upright. Null on another carrier. */
  readonly slidMm: number | null;
  readonly clamp: boolean;
  readonly arm: boolean;
  /** The arm passes its tube otherwise. */
  readonly side: boolean;
}

export interface BarChange {
  readonly bar: string;
  readonly what: 'added' | 'removed' | 'changed';
  /** Null before or after: straight. */
  readonly bend: Change<Bend | null> | null;
  readonly tube: Change<string> | null;
  readonly cutLengthMm: Change<number> | null;
  readonly heightMm: Change<number> | null;
  /** What stands out beyond the leg at its start: it slid in its joints, or the legs stand otherwise. */
  readonly overhangMm: Change<number> | null;
}

export interface LegChange {
  readonly leg: string;
  readonly what: 'added' | 'removed' | 'changed';
  /** mm in plan. */
  readonly movedMm: number;
  readonly footTurnedDeg: number;
  readonly tube: Change<string> | null;
  readonly lengthMm: Change<number> | null;
  readonly foot: Change<string | null> | null;
}

/** The fields that the schema names; what a newer version wrote beside them is kept and not compared. */
type Named<T> = keyof { [K in keyof T as string extends K ? never : K]: T[K] };

/**
 * Every field of a piece, and where its change is told: in a field of its own, among `also`, or nowhere: what it is known by, and what
 * only the page goes by. One that does not say so does not compile.
 */
const ITEM_FIELDS = {
  ...{ kind: null, id: null, locked: null, name: 'also', gear: 'own', place: 'own', mount: 'own', ties: 'own' },
  ...{
    second: 'own',
    legsTurnDeg: 'own',
    tip: 'also',
    load: 'also',
    takes: 'also',
    mix: 'also',
    power: 'also',
    note: 'also',
  },
} as const satisfies Record<Named<Item>, 'own' | 'also' | null>;
const RACK_FIELDS = {
  ...{
    kind: null,
    id: null,
    locked: null,
    name: 'also',
    place: 'own',
    legs: 'own',
    spans: 'own',
    load: 'also',
    note: 'also',
  },
} as const satisfies Record<Named<Rack>, 'own' | 'also' | null>;

type AlsoIn<T> = { [K in keyof T]: T[K] extends 'also' ? K : never }[keyof T];
/** What has no number: that it is otherwise is all that is told. */
export type Also = AlsoIn<typeof ITEM_FIELDS> | AlsoIn<typeof RACK_FIELDS>;

/** As the plan has it; undefined: left out. */
export interface AlsoChange extends Change<unknown> {
  readonly field: Also;
}

export interface PieceDifference {
  readonly id: string;
  /** As it is called after, or was before if it is no longer there. */
  readonly name: string;
  readonly what: 'added' | 'removed' | 'moved' | 'changed';
  /** Counts for the playing layout, and differs there. */
  readonly playing: boolean;
  /** 0 where the tolerance says the same. */
  readonly movedMm: number;
  readonly move: readonly [number, number];
  readonly turnedDeg: number;
  readonly raisedMm: number;
  readonly tiltedDeg: number;
  readonly gear: Change<string> | null;
  readonly mount: MountChange | null;
  readonly ties: Change<readonly Tie[]> | null;
  /** Legs turned about the tube, or a double pedal's second pedal moved against the first. */
  readonly legsTurned: boolean;
  readonly secondMoved: boolean;
  readonly bars: readonly BarChange[];
  readonly legs: readonly LegChange[];
  readonly also: readonly AlsoChange[];
}

export interface ReadingDifference {
  readonly name: string;
  readonly before: number | null;
  readonly after: number | null;
}

export interface PartDifference {
  readonly part: PartRow;
  readonly before: number;
  readonly after: number;
}

export interface Differences {
  readonly from: string;
  readonly to: string;
  /** How the whole kit moved: all else is said in its own frame. Null: it did not. */
  readonly kit: KitMove | null;
  readonly samePlayingLayout: boolean;
  /** Playing pieces that differ. */
  readonly playing: readonly string[];
  /** Removed ones first, in the order of the first setup; then in the order of the second. */
  readonly pieces: readonly PieceDifference[];
  readonly partsAdded: readonly PartDifference[];
  readonly partsRemoved: readonly PartDifference[];
  readonly readings: readonly ReadingDifference[];
}

/** The turn from one heading to another, in (-180, 180]. */
export function turnDeg(from: number, to: number): number {
  const turn = (((to - from) % 360) + 360) % 360;
  return turn > 180 ? turn - 360 : turn;
}

const mm = (value: number): number => (Math.abs(value) < SAME_MM ? 0 : value);
const deg = (value: number): number => (Math.abs(value) < SAME_DEG ? 0 : value);
const change = <T>(from: T, to: T, same = from === to): Change<T> | null => (same ? null : { from, to });
const changeMm = (from: number, to: number) => change(from, to, sameMm(from, to));

const equal = (a: unknown, b: unknown): boolean => a === b;
const sameMm = (a: number, b: number): boolean => mm(b - a) === 0;
const sameDeg = (a: number, b: number): boolean => deg(turnDeg(a, b)) === 0;

/** Whether two things are alike, field by field; a field that nobody compares does not compile. */
const alike =
  <T extends object>(fields: { readonly [K in Named<T>]-?: (a: T[K], b: T[K]) => boolean }) =>
  (a: T, b: T): boolean =>
    a === b || (Object.keys(fields) as Named<T>[]).every((field) => fields[field](a[field], b[field]));
/** The same where either may be missing. */
const alikeOrNone =
  <T>(same: (a: T, b: T) => boolean) =>
  (a: T | null | undefined, b: T | null | undefined): boolean =>
    a == null || b == null ? (a ?? null) === (b ?? null) : same(a, b);

const isFootboard = (gear: Gear | undefined): boolean => gear?.kind === 'stand' && gear.board !== undefined;

const isPlaying = (gear: Gear | undefined): boolean =>
  gear !== undefined && isPlaceable(gear) && placedKind(gear).isPlayed(gear);

const tiltOf = ({ place }: Item): number => place.tiltDeg ?? 0;

/** Round and level: turning it about its own axis changes nothing. */
const isRound = (item: Item, gear: Gear | undefined): boolean =>
  gear !== undefined &&
  isPlaceable(gear) &&
  placedKind(gear).isRound(gear, item.mount !== null) &&
  Math.abs(tiltOf(item)) < SAME_DEG;

/** Which of a piece's bars, uprights or sockets it is; null of a stand or a drum, which is one. */
const partOf = (carrier: Carrier): string | number | null =>
  carrier.on === 'bar'
    ? carrier.bar
    : carrier.on === 'leg'
      ? carrier.leg
      : carrier.on === 'socket'
        ? carrier.socket
        : null;

const sameCarrier = (a: Carrier, b: Carrier): boolean =>
  a.on === b.on && carrierPiece(a) === carrierPiece(b) && partOf(a) === partOf(b);

/** How far along its tube a carrier is; 0 where there is no tube. */
const along = (carrier: Carrier): number =>
  carrier.on === 'bar' ? carrier.atMm : carrier.on === 'leg' ? carrier.heightMm : 0;

/** On the same tube at the same place. */
const sameHold = (a: Carrier, b: Carrier): boolean => sameCarrier(a, b) && sameMm(along(a), along(b));

const sameMount = alikeOrNone(
  alike<Mount>({
    carrier: sameHold,
    clamp: equal,
    arm: equal,
    // Of a platform, the arm in its own socket.
    platformArm: (a, b) => (a ?? null) === (b ?? null),
    side: equal,
  }),
);

function mountChange(from: Mount | null, to: Mount | null): MountChange | null {
  if (sameMount(from, to)) return null;
  const same = from !== null && to !== null && sameCarrier(from.carrier, to.carrier);
  return {
    from,
    to,
    carrier: !same,
    slidMm: same ? mm(along(to.carrier) - along(from.carrier)) : null,
    clamp: from?.clamp !== to?.clamp,
    arm: from?.arm !== to?.arm || (from?.platformArm ?? null) !== (to?.platformArm ?? null),
    side: from?.side !== to?.side,
  };
}

const sameTie = alike<Tie>({ carrier: sameHold, link: equal, clamp: equal, heightMm: sameMm });

function tiesChange(from: readonly Tie[] = [], to: readonly Tie[] = []): Change<readonly Tie[]> | null {
  return change(from, to, from.length === to.length && from.every((tie, k) => sameTie(tie, to[k])));
}

const NOTHING = {
  playing: false,
  movedMm: 0,
  move: [0, 0],
  turnedDeg: 0,
  raisedMm: 0,
  tiltedDeg: 0,
  gear: null,
  mount: null,
  ties: null,
  legsTurned: false,
  secondMoved: false,
  bars: [],
  legs: [],
  also: [],
} as const;

/** What is otherwise of a piece's fields without a number. */
function alsoOf<T extends Piece>(
  fields: Readonly<Record<string, 'own' | 'also' | null>>,
  before: T,
  after: T,
): AlsoChange[] {
  return (Object.keys(fields) as Also[])
    .filter((field) => fields[field] === 'also' && JSON.stringify(before[field]) !== JSON.stringify(after[field]))
    .map((field) => ({ field, from: before[field], to: after[field] }));
}

function moved(before: Piece, after: Piece): Pick<PieceDifference, 'movedMm' | 'move' | 'turnedDeg'> {
  const dx = after.place.xMm - before.place.xMm;
  const dy = after.place.yMm - before.place.yMm;
  const movedMm = mm(Math.hypot(dx, dy));
  return {
    movedMm,
    move: movedMm === 0 ? [0, 0] : [dx, dy],
    turnedDeg: deg(turnDeg(before.place.headingDeg, after.place.headingDeg)),
  };
}

function itemDifference(plan: Plan, before: Item, after: Item): PieceDifference | null {
  const [gearBefore, gearAfter] = [gearOf(plan.gear, before.gear), gearOf(plan.gear, after.gear)];
  const place = moved(before, after);
  const round = isRound(before, gearBefore) && isRound(after, gearAfter);
  const [low, high] = [heightMmIn(before.place, gearBefore), heightMmIn(after.place, gearAfter)];
  const raisedMm = low === null || high === null ? 0 : mm(high - low);
  const tiltedDeg = deg(tiltOf(after) - tiltOf(before));
  const gear = change(before.gear, after.gear);
  const mount = mountChange(before.mount, after.mount);
  const ties = tiesChange(before.ties, after.ties);
  const legsTurned = !sameDeg(before.legsTurnDeg ?? 0, after.legsTurnDeg ?? 0);
  const secondMoved = !sameSecond(before.second, after.second);
  const also = alsoOf(ITEM_FIELDS, before, after);
  // A footboard stays where it is whatever legs its stand has, and however tall its tube is.
  const footboard = isFootboard(gearBefore) && isFootboard(gearAfter);
  const turnedDeg = round ? 0 : place.turnedDeg;
  const elsewhere = place.movedMm !== 0 || turnedDeg !== 0;
  const other = raisedMm !== 0 || tiltedDeg !== 0 || gear !== null || secondMoved;
  const playing = (isPlaying(gearBefore) || isPlaying(gearAfter)) && (elsewhere || (other && !footboard));
  const changed = gear !== null || mount !== null || ties !== null || legsTurned || secondMoved || also.length > 0;
  if (!changed && !elsewhere && raisedMm === 0 && tiltedDeg === 0) return null;
  return {
    ...{
      ...NOTHING,
      id: after.id,
      name: after.name,
      what: changed ? 'changed' : 'moved',
      ...place,
      turnedDeg,
      playing,
    },
    ...{ raisedMm, tiltedDeg, gear, mount, ties, legsTurned, secondMoved, also },
  };
}

const sameSecond = alikeOrNone(alike<NonNullable<Item['second']>>({ xMm: sameMm, yMm: sameMm, headingDeg: sameDeg }));

const sameBend = alikeOrNone(alike<Bend>({ radiusMm: sameMm, straightEndsMm: sameMm, side: equal }));

const sameBar = alike<Bar>({
  id: equal,
  tube: equal,
  cutLengthMm: sameMm,
  bend: sameBend,
  overhangMm: sameMm,
  heightMm: sameMm,
});

function barChanges(before: Rack, after: Rack): BarChange[] {
  const [from, to] = [before, after].map((rack) => new Map(barsOf(rack).map(({ bar }) => [bar.id, bar])));
  const none = { bend: null, tube: null, cutLengthMm: null, heightMm: null, overhangMm: null };
  const changes: BarChange[] = [];
  for (const bar of from.keys()) if (!to.has(bar)) changes.push({ bar, what: 'removed', ...none });
  for (const [bar, b] of to) {
    const a = from.get(bar);
    if (!a) {
      changes.push({ bar, what: 'added', ...none });
      continue;
    }
    if (sameBar(a, b)) continue;
    changes.push({
      bar,
      what: 'changed',
      bend: change(a.bend, b.bend, sameBend(a.bend, b.bend)),
      tube: change(a.tube, b.tube),
      cutLengthMm: changeMm(a.cutLengthMm, b.cutLengthMm),
      heightMm: changeMm(a.heightMm, b.heightMm),
      overhangMm: changeMm(a.overhangMm, b.overhangMm),
    });
  }
  return changes;
}

/** Which way a foot lies is told of where it stands in the plan. */
const sameFoot = alikeOrNone(
  alike<NonNullable<Leg['foot']>>({ gear: equal, lengthMm: sameMm, headingDeg: () => true }),
);

const sameLeg = alike<Leg>({ id: equal, tube: equal, lengthMm: sameMm, foot: sameFoot });

/** Where legs stand follows from places, turns and tubes alike, so they are held against one another in the plan. */
function legChanges(before: Rack, after: Rack): LegChange[] {
  const places = (rack: Rack) => new Map(rackFrame(rack).legs.map((leg) => [leg.id, leg]));
  const [from, to] = [places(before), places(after)];
  const none = { movedMm: 0, footTurnedDeg: 0, tube: null, lengthMm: null, foot: null };
  const changes: LegChange[] = [];
  for (const leg of from.keys()) if (!to.has(leg)) changes.push({ leg, what: 'removed', ...none });
  for (const b of after.legs) {
    const a = before.legs.find(({ id }) => id === b.id);
    const [was, is] = [from.get(b.id), to.get(b.id)];
    if (!a || !was || !is) {
      changes.push({ leg: b.id, what: 'added', ...none });
      continue;
    }
    const movedMm = mm(Math.hypot(is.x - was.x, is.y - was.y));
    const turned = turnDeg((was.headingRad * 180) / Math.PI, (is.headingRad * 180) / Math.PI);
    const footTurnedDeg = a.foot && b.foot ? deg(turned) : 0;
    if (movedMm === 0 && footTurnedDeg === 0 && sameLeg(a, b)) continue;
    changes.push({
      leg: b.id,
      what: 'changed',
      movedMm,
      footTurnedDeg,
      tube: change(a.tube, b.tube),
      lengthMm: changeMm(a.lengthMm, b.lengthMm),
      foot: change(a.foot?.gear ?? null, b.foot?.gear ?? null, sameFoot(a.foot, b.foot)),
    });
  }
  return changes;
}

function rackDifference(before: Rack, after: Rack): PieceDifference | null {
  const place = moved(before, after);
  const bars = barChanges(before, after);
  const legs = legChanges(before, after);
  const also = alsoOf(RACK_FIELDS, before, after);
  const changed =
    bars.length > 0 ||
    also.length > 0 ||
    legs.some(({ what, tube, lengthMm, foot }) => what !== 'changed' || tube || lengthMm || foot);
  if (!changed && legs.length === 0 && place.movedMm === 0 && place.turnedDeg === 0) return null;
  return {
    ...NOTHING,
    id: after.id,
    name: after.name,
    what: changed ? 'changed' : 'moved',
    ...place,
    bars,
    legs,
    also,
  };
}

/** One piece in both setups; null: the same. */
function pieceDifference(plan: Plan, before: Piece, after: Piece): PieceDifference | null {
  if (before === after) return null;
  if (before.kind === 'rack' && after.kind === 'rack') return rackDifference(before, after);
  if (before.kind === 'item' && after.kind === 'item') return itemDifference(plan, before, after);
  const item = before.kind === 'item' ? before : (after as Item);
  const playing = isPlaying(gearOf(plan.gear, item.gear));
  return { ...NOTHING, id: after.id, name: after.name, what: 'changed', playing, ...moved(before, after) };
}

function pieceDifferences(plan: Plan, from: Setup, to: Setup): PieceDifference[] {
  const found: PieceDifference[] = [];
  const alone = (piece: Piece, what: 'added' | 'removed') => {
    const playing = piece.kind === 'item' && isPlaying(gearOf(plan.gear, piece.gear));
    found.push({ ...NOTHING, id: piece.id, name: piece.name, what, playing });
  };
  for (const id of from.order) if (!Object.hasOwn(to.pieces, id)) alone(from.pieces[id], 'removed');
  for (const id of to.order) {
    if (!Object.hasOwn(from.pieces, id)) {
      alone(to.pieces[id], 'added');
      continue;
    }
    const difference = pieceDifference(plan, from.pieces[id], to.pieces[id]);
    if (difference) found.push(difference);
  }
  return found;
}

/** Parts that one setup has more of, in the order of its list. */
function moreParts(before: readonly PartRow[], after: readonly PartRow[]): PartDifference[] {
  const counts = new Map(before.map((row) => [partKey(row), row.count]));
  return after.flatMap((part) => {
    const had = counts.get(partKey(part)) ?? 0;
    return part.count > had ? [{ part, before: had, after: part.count }] : [];
  });
}

/** Numbers by name, as a setup's readings have them; what is not a number is left out, and null stays null. */
export type NamedReadings = Readonly<Record<string, unknown>>;

const isReading = (value: unknown): value is number | null => value === null || typeof value === 'number';

/** Readings of which at least one is a number; equal ones as well, so that a table has the same rows for any two setups. */
function readingDifferences(before: NamedReadings, after: NamedReadings): ReadingDifference[] {
  return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((name) => {
    const [a, b] = [before[name] ?? null, after[name] ?? null];
    return isReading(a) && isReading(b) && (a !== null || b !== null) ? [{ name, before: a, after: b }] : [];
  });
}

/**
 * What differs from one setup to another.
 * Inputs: two setups that the plan holds; their readings if they are at hand (checks/readings.ts).
 */
export function differences(
  plan: Plan,
  from: string,
  to: string,
  readings: Change<NamedReadings> = { from: {}, to: {} },
): Differences {
  const [first, second] = [plan.setups[from], plan.setups[to]];
  const kit = kitMove(plan, first, second, isPlaying);
  const pieces = pieceDifferences(plan, kit ? movedKit(plan, first, kit) : first, second);
  const playing = pieces.filter((piece) => piece.playing).map(({ id }) => id);
  const [before, after] = [partsOf(plan, from).all, partsOf(plan, to).all];
  return {
    from,
    to,
    kit,
    samePlayingLayout: playing.length === 0,
    playing,
    pieces,
    partsAdded: moreParts(before, after),
    partsRemoved: moreParts(after, before).map(({ part, before: is, after: was }) => ({
      part,
      before: was,
      after: is,
    })),
    readings: readingDifferences(readings.from, readings.to),
  };
}

/** Every number of a setup's readings by name; one within a reading behind a point, such as `extent.width`. */
function numbersOf(readings: ComparedReadings): NamedReadings {
  const { extent, smallestRectangle, floorExtent, floorRectangle, bestRiserPose, bestRiserShift, ...rest } = readings;
  const spans = Object.entries({ extent, smallestRectangle, floorExtent, floorRectangle });
  const sizes = spans.flatMap(([name, span]) => [
    [`${name}.width`, span?.width ?? null],
    [`${name}.depth`, span?.depth ?? null],
  ]);
  return {
    ...rest,
    ...Object.fromEntries(sizes),
    'bestRiserPose.margin': bestRiserPose?.margin ?? null,
    'bestRiserShift.margin': bestRiserShift?.margin ?? null,
  };
}

/** What differs from one setup to another, their readings before and after among it. */
export function differencesOf(plan: Plan, before: ComparedSetup, after: ComparedSetup): Differences {
  return differences(plan, before.id, after.id, { from: numbersOf(before.readings), to: numbersOf(after.readings) });
}
