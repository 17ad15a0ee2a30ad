/**
 * How close two things may be. The defaults are our own, chosen for how much each swings or is moved in playing; they are
 * nobody's rule, and a plan may set its own for any pair of kinds, or null to leave that pair unchecked.
 */
import type { BodyKind } from '../gear/bodyKinds.ts';
import { kept } from '../keep.ts';
import type { Limits } from '../plan/schema.ts';

/** Every pair not named below. */
export const DEFAULT_CLEARANCE_MM = 15;

/** Heights closer than this count as meeting: what a stand or an arm gives when it is leaned on. Our own default. */
export const DEFAULT_HEIGHT_MM = 10;

/**
 * Room above and beneath a cymbal's edge, mm, by what is there: it swings up and down when it is hit, much farther than to the side.
 * Common practice, no source: two fingers over a drum's head and rim, less over what nobody plays.
 */
const CYMBAL_ROOM = { drum: 40, cymbal: 30, tube: 25, other: 25 } as const;

export type CymbalRoom = keyof typeof CYMBAL_ROOM;

/** What a cymbal is above or beneath. */
const ROOM_OVER: Readonly<Record<BodyKind, CymbalRoom>> = {
  bassDrum: 'drum',
  snare: 'drum',
  tom: 'drum',
  floorTom: 'drum',
  cymbal: 'cymbal',
  pedal: 'other',
  shaft: 'other',
  throne: 'other',
  stand: 'tube',
  leg: 'tube',
  foot: 'tube',
  bar: 'tube',
  arm: 'tube',
  link: 'tube',
  spur: 'tube',
  drummer: 'other',
  stageItem: 'other',
};

/** Every pair closer than this is listed in the report, whatever its limit. */
export const LISTED_BELOW_MM = 60;

/**
 * mm; null: not checked. Pairs of kinds in alphabetical order, joined by '+'.
 * cymbal rows: cymbals swing. throne rows: someone sits down there. stageItem rows: people walk between. drummer rows: legs and
 * shoes; a snare stands between the knees and may nearly touch them, a hard tube may not.
 */
export const PAIR_DEFAULTS: Readonly<Record<string, number | null>> = {
  'bassDrum+cymbal': 20,
  'cymbal+cymbal': 25,
  'cymbal+floorTom': 20,
  'cymbal+snare': 20,
  'cymbal+tom': 20,
  'arm+drummer': 15,
  'bar+drummer': 20,
  'drummer+floorTom': 15,
  'drummer+foot': 10,
  'drummer+leg': 20,
  'drummer+pedal': 10,
  'drummer+shaft': 10,
  'drummer+snare': 5,
  'drummer+stageItem': 30,
  'drummer+stand': 5,
  'drummer+throne': null,
  'drummer+tom': 10,
  'foot+foot': 10,
  'pedal+pedal': 25,
  'pedal+throne': 30,
  'snare+throne': 30,
  'stageItem+stageItem': null,
  'stand+stand': 10,
  'throne+tom': 30,
  'floorTom+throne': 30,
};

export const pairOfKinds = (a: BodyKind, b: BodyKind): string => (a < b ? `${a}+${b}` : `${b}+${a}`);

/** By a plan's limits and both kinds: asked for every pair of bodies in every frame. */
const clearancesIn = kept((_: Limits) => new Map<BodyKind, Map<BodyKind, number | null>>());
const NO_LIMITS: Limits = {};

/** The limit for a pair of kinds, mm; null when the pair is not checked. */
export function requiredClearance(limits: Limits | undefined, a: BodyKind, b: BodyKind): number | null {
  const known = clearancesIn(limits ?? NO_LIMITS);
  let row = known.get(a);
  if (row === undefined) {
    row = new Map();
    known.set(a, row);
  }
  let wanted = row.get(b);
  if (wanted === undefined) {
    wanted = clearanceFor(limits, a, b);
    row.set(b, wanted);
  }
  return wanted;
}

function clearanceFor(limits: Limits | undefined, a: BodyKind, b: BodyKind): number | null {
  const own = ownClearance(limits, a, b);
  if (own !== undefined) return own;
  const pair = pairOfKinds(a, b);
  return Object.hasOwn(PAIR_DEFAULTS, pair) ? PAIR_DEFAULTS[pair] : DEFAULT_CLEARANCE_MM;
}

/** The plan's own; undefined: it has none. */
function ownClearance(limits: Limits | undefined, a: BodyKind, b: BodyKind): number | null | undefined {
  const own = limits?.clearanceMm;
  const pair = pairOfKinds(a, b);
  return own && Object.hasOwn(own, pair) ? own[pair] : undefined;
}

/** The room wanted where one of the kinds is above the other, mm. A plan's own height for all pairs holds for cymbals too. */
export function requiredAbove(limits: Limits | undefined, a: BodyKind, b: BodyKind): number {
  const own = ownAbove(limits, a, b);
  if (own !== undefined) return own;
  const room = cymbalRoom(a, b);
  return room === null ? DEFAULT_HEIGHT_MM : CYMBAL_ROOM[room];
}

/** Whose room it is where one of the kinds is a cymbal; null: neither is. */
function cymbalRoom(a: BodyKind, b: BodyKind): CymbalRoom | null {
  return a === 'cymbal' ? ROOM_OVER[b] : b === 'cymbal' ? ROOM_OVER[a] : null;
}

/** The plan's own; undefined: it has none, or less for all heights than a cymbal wants anyway. */
function ownAbove(limits: Limits | undefined, a: BodyKind, b: BodyKind): number | undefined {
  const height = limits?.heightMm;
  const room = cymbalRoom(a, b);
  if (room === null) return height;
  const own = limits?.cymbalRoomMm?.[room];
  return own ?? (height !== undefined && height > CYMBAL_ROOM[room] ? height : undefined);
}

/** What is wanted over and under a cymbal where the plan sets no room of its own for it, mm. */
export const usualCymbalRoom = (limits: Limits | undefined, room: CymbalRoom): number =>
  Math.max(CYMBAL_ROOM[room], limits?.heightMm ?? 0);

/** No pair of bodies wants more room above than this, mm. */
export function mostAbove(limits: Limits | undefined): number {
  const rooms = Object.keys(CYMBAL_ROOM) as CymbalRoom[];
  return Math.max(
    limits?.heightMm ?? DEFAULT_HEIGHT_MM,
    ...rooms.map((room) => limits?.cymbalRoomMm?.[room] ?? usualCymbalRoom(limits, room)),
  );
}

/** Where a limit is from, for the finding; `isAbove`: it is the room above, not the clearance. */
export function clearanceSource(limits: Limits | undefined, a: BodyKind, b: BodyKind, isAbove: boolean): string {
  return (isAbove ? ownAbove(limits, a, b) : ownClearance(limits, a, b)) === undefined
    ? "Legroom's own default"
    : 'set in this plan';
}
