/**
 * Is anything closer to something else than it may be, heights considered?
 *
 * Every pair of bodies of different pieces counts, but for what touches by design (exemptions below) and pairs of kinds whose
 * limit is null; of one piece, its own arm (joints.ts) and a rack's parts (withinRack.ts). A gap of 0 or less is blocked, one
 * below its limit tight. The gap is that of the outlines in plan where both stand upright and their heights meet; else the
 * distance in space (spaceGaps.ts), measured once the plan has not ruled it out.
 */
import type { BodyKind } from '../gear/bodyKinds.ts';
import { gearOf } from '../gear/catalogue.ts';
import { carrying } from '../gear/kinds.ts';
import { gap, gapValue } from '../geometry/gap.ts';
import { Lent } from '../geometry/lent.ts';
import { CoreTable, closePairs, Pairs } from '../geometry/pairs.ts';
import { kept } from '../keep.ts';
import { type Body, isArmBody } from '../layout/body.ts';
import { carries } from '../layout/joined.ts';
import type { Carrier, Plan, Setup } from '../plan/schema.ts';
import {
  type Between,
  checkOf,
  code,
  type Drawn,
  type Measured,
  type OnePiece,
  type PartOf,
  saysOf,
  type TwoPieces,
} from './codes.ts';
import {
  clearanceSource,
  DEFAULT_CLEARANCE_MM,
  DEFAULT_HEIGHT_MM,
  LISTED_BELOW_MM,
  mostAbove,
  PAIR_DEFAULTS,
  requiredAbove,
  requiredClearance,
} from './limits.ts';
import type { PairReading } from './pair.ts';
import { heightGap, measuredInSpace, needsSpace } from './spaceGaps.ts';
import { isAbove, isBelow } from './tolerance.ts';

const buffers = new Lent(() => ({ table: new CoreTable(), out: new Pairs() }));

/** `space`: the number is a distance in space. `upper`: which of the two is above the other; null: they are beside each other. */
interface Parts extends Pick<Between, 'parts'> {
  readonly space: boolean;
  readonly upper: 0 | 1 | null;
}

type Pair = Measured & TwoPieces & Drawn & Parts;
type Within = Measured & OnePiece & Drawn & Parts;

const OTHER_ARM = 'move its clamp, or take another arm.';

/** What to do about two parts of one rack, or a brace and its stand. */
function rackRemedy({ parts }: Between): string {
  const kinds = parts.map(({ kind }) => kind);
  const has = (kind: BodyKind) => kinds.includes(kind);
  if (has('link')) return 'move its clamp';
  if (!has('bar')) return 'turn a foot, or set the legs farther apart';
  if (has('foot')) return 'raise the bar';
  return has('leg') ? 'move the leg, or bend the bar otherwise' : 'set one bar higher';
}

export const CLEARANCE = checkOf('clearance', {
  word: 'Clearance',
  caution: null,
  codes: {
    overlap: code<Pair>('mm', 'atLeast', ({ limit, partsOf }, { value, limit: wanted, ...found }) => {
      const [first, second] = partsOf(found);
      if (wanted === 0) return `${first} runs into ${second}, which carries it: ${OTHER_ARM}`;
      return isBelow(value, 0)
        ? `${first} and ${second} run into each other: move them apart to leave ${limit}.`
        : `${first} and ${second} touch: move one of them ${limit} away.`;
    }),
    too_close: code<Pair>('mm', 'atLeast', ({ value, limit, partsOf }, { pieces, parts, upper }) => {
      if (upper === null)
        return `${partsOf({ pieces, parts }).join(' and ')} are ${value} apart, and ${limit} is wanted.`;
      const [over, under] = partsOf(
        upper === 0 ? { pieces, parts } : { pieces: [pieces[1], pieces[0]], parts: [parts[1], parts[0]] },
      );
      return `${over} is ${value} above ${under}, and ${limit} is wanted: raise the one or lower the other.`;
    }),
    apart: code<Pair>(
      'mm',
      'atLeast',
      ({ value, limit, partsOf }, found) =>
        `Nothing is too close: ${partsOf(found, false).join(' and ')} come nearest, ${value} apart with ${limit} wanted.`,
    ),
    /** A piece and its own arm, or two parts of one rack. */
    overlaps_itself: code<Within>('mm', 'atLeast', ({ names: [name], partsOf }, found) => {
      const [first, second] = partsOf(found);
      return found.parts[0].kind === 'arm'
        ? `${first} runs through ${name} itself: ${OTHER_ARM}`
        : `${first} and ${second} run into each other: ${rackRemedy(found)}.`;
    }),
    too_close_itself: code<Within>(
      'mm',
      'atLeast',
      ({ value, limit, partsOf }, found) =>
        `${partsOf(found).join(' and ')} are ${value} apart, and ${limit} is wanted: ${rackRemedy(found)}.`,
    ),
  },
});
const says = saysOf(CLEARANCE);

/** So many two pieces have a finding each, the worst of them: far more than a stage has, and as many as anyone reads. */
export const MOST_TOLD = 200;
/**
 * So many pairs for each body are looked at, and MOST_PAIRS more: several times what the most crowded kit has. Only where much lies in a
 * heap are there more, and they grow with its square.
 */
const PAIRS_EACH = 3;
const MOST_PAIRS = 6000;

/** A pedal whose tower is this near to a batter hoop is clamped to it. Our own default: a plate's length. */
export const CLAMPED_MM = 60;

function isMicrophone(plan: Plan, id: string): boolean {
  const gear = gearOf(plan.gear, id);
  return gear?.kind === 'stageItem' && gear.use === 'microphone';
}

/** Pairs of bodies that touch by design. */
export interface Exemptions {
  has(a: Body, b: Body): boolean;
}

/**
 * - a piece and the stand that it sits on (a tom and the rack that carries it do not touch, so they are checked);
 * - an arm or a link and the rack, arm or stand that carries it: joints.ts has where these run into each other;
 * - a bass drum and the pedal clamped to its batter hoop, with the shaft that starts there; a double pedal's second pedal is
 *   clamped to nothing, and is checked;
 * - a microphone and the piece that it takes: it stands within a hand of the head, or in the drum.
 */
function exemptions(plan: Plan, setup: Setup, bodies: readonly Body[]): Exemptions {
  const seat = new Map<string, string>();
  const holders = new Map<string, readonly Carrier[]>();
  const takes = new Map<string, string>();
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    if (piece?.kind !== 'item') continue;
    if (piece.takes !== undefined && isMicrophone(plan, piece.gear)) takes.set(id, piece.takes);
    const carriers = [...(piece.mount ? [piece.mount.carrier] : []), ...(piece.ties ?? []).map((tie) => tie.carrier)];
    if (carriers.length > 0) holders.set(id, carriers);
    if (piece.mount?.carrier.on !== 'piece') continue;
    const under = setup.pieces[piece.mount.carrier.piece];
    if (under?.kind === 'item' && carrying(gearOf(plan.gear, under.gear))?.seats) seat.set(id, under.id);
  }
  const clamped = new Set<string>();
  const hoops = bodies.filter((body) => body.kind === 'bassDrum' && body.part === 'hoop');
  if (hoops.length > 0)
    for (const tower of bodies) {
      if (tower.kind !== 'pedal' || tower.part !== 'tower') continue;
      for (const hoop of hoops)
        if (gapValue(tower.shape, hoop.shape) <= CLAMPED_MM) clamped.add(`${tower.piece} ${hoop.piece}`);
    }
  const first = ({ kind, part }: Body) =>
    kind === 'shaft' || (kind === 'pedal' && (part === 'board' || part === 'tower'));
  /** Whether `a` may touch `b`; not the other way round. */
  const one = (a: Body, b: Body): boolean =>
    seat.get(a.piece) === b.piece ||
    takes.get(a.piece) === b.piece ||
    (isArmBody(a) && holders.get(a.piece)?.some((carrier) => carries(carrier, b)) === true) ||
    (b.kind === 'bassDrum' && first(a) && clamped.has(`${a.piece} ${b.piece}`));
  return { has: (a, b) => a.piece === b.piece || one(a, b) || one(b, a) };
}

/** Pairs farther apart than this are of no concern to any limit, mm. */
export function pairReach(limits: Plan['limits']): number {
  const own = [...Object.values(PAIR_DEFAULTS), ...Object.values(limits?.clearanceMm ?? {})];
  return own.reduce<number>((most, mm) => Math.max(most, mm ?? 0), Math.max(LISTED_BELOW_MM, DEFAULT_CLEARANCE_MM));
}

export interface Pairings {
  /** Checked pairs closer than their limit or than LISTED_BELOW_MM, in the order of the bodies. */
  readonly pairs: PairReading[];
  /** So many pairs at least were not looked at: more lies in a heap than is held against each other. */
  readonly unlooked: number;
}

/** The pairs of pairings(). */
export const pairReadings = (plan: Plan, setup: Setup, bodies: readonly Body[]): PairReading[] =>
  pairings(plan, setup, bodies).pairs;

/**
 * Each body of another piece that is near, as far as they are looked at (PAIRS_EACH). `moving`: pairs of these pieces with all others alone,
 * where not all are asked for.
 */
export function pairings(
  plan: Plan,
  setup: Setup,
  bodies: readonly Body[],
  moving: ReadonlySet<string> | null = null,
): Pairings {
  const { limits } = plan;
  const exempt = exemptions(plan, setup, bodies);
  const reach = pairReach(limits);
  const heightSlackMm = limits?.heightMm ?? DEFAULT_HEIGHT_MM;
  // Cymbals want more room above and beneath than that.
  const swing = mostAbove(limits) - heightSlackMm;
  const pairs: (PairReading & { order: number })[] = [];
  let unlooked = 0;
  buffers.use(({ table, out }) => {
    table.clear();
    // A piece's bodies stand in line, and it is no pair with itself.
    let group = 0;
    let before = '';
    for (const { piece, kind, shape, z0, z1 } of bodies) {
      const more = kind === 'cymbal' ? swing : 0;
      if (piece !== before) group++;
      before = piece;
      table.add(shape, z0 - more, z1 + more, moving === null ? group : moving.has(piece) ? 1 : 0);
    }
    const most = MOST_PAIRS + PAIRS_EACH * bodies.length;
    const { count, ia, ib, gap, left } = closePairs(table, reach, { heightSlackMm, out, most });
    unlooked = left;
    for (let k = 0; k < count; k++) {
      const a = bodies[ia[k]];
      const b = bodies[ib[k]];
      if (a.piece === b.piece) continue;
      const beside = requiredClearance(limits, a.kind, b.kind);
      if (beside === null || gap[k] >= Math.max(beside, LISTED_BELOW_MM)) continue;
      const order = ia[k] * bodies.length + ib[k];
      if (!needsSpace(a, b)) {
        if (!exempt.has(a, b)) pairs.push({ a, b, gap: gap[k], required: beside, space: null, order });
        continue;
      }
      const above = requiredAbove(limits, a.kind, b.kind);
      if (heightGap(a, b) >= above || exempt.has(a, b)) continue;
      const space = measuredInSpace(a, b, gap[k], { beside, above }, Math.max(beside, above, LISTED_BELOW_MM));
      if (space !== null) pairs.push({ a, b, gap: space.gap, required: space.required, space, order });
    }
  });
  return { pairs: pairs.sort((p, q) => p.order - q.order), unlooked };
}

/** From the one's nearest point to the other's, seen from above. */
export function pairLine({ a, b, space }: PairReading): readonly [number, number, number, number] {
  if (space?.line) return space.line;
  const near = gap(a.shape, b.shape);
  return [near.ax, near.ay, near.bx, near.by];
}

/** How near two things are, and how near they may come. */
type Verdict = Pick<PairReading, 'gap' | 'required'>;

export const pairState = ({ gap, required }: Verdict): 'blocked' | 'tight' | 'clear' =>
  !isAbove(gap, 0) ? 'blocked' : isBelow(gap, required) ? 'tight' : 'clear';

const shortfall = (pair: Verdict): number => pair.gap - pair.required;

const partOf = ({ kind, part }: Body): PartOf => ({ kind, part });

/** Whether the one is in more trouble than the other: what runs into each other before what is merely too close. */
export function worse(one: Verdict, other: Verdict): boolean {
  const [p, q] = [pairState(one) === 'blocked', pairState(other) === 'blocked'];
  return p === q ? shortfall(one) < shortfall(other) : p;
}

const CODES = { blocked: 'overlap', tight: 'too_close', clear: 'apart' } as const;

function finding(plan: Plan, pair: PairReading): ReturnType<typeof says> {
  const { a, b, required, space } = pair;
  const state = pairState(pair);
  const line = pairLine(pair);
  const found = {
    state,
    bodies: [a.id, b.id],
    parts: [partOf(a), partOf(b)],
    value: pair.gap,
    limit: required,
    source: clearanceSource(plan.limits, a.kind, b.kind, space !== null && space.upper !== null),
    at: [(line[0] + line[2]) / 2, (line[1] + line[3]) / 2],
    line,
    space: space !== null,
    upper: space?.upper ? (space.upper === 'a' ? 0 : 1) : null,
  } as const;
  if (a.piece === b.piece)
    return says(state === 'blocked' ? 'overlaps_itself' : 'too_close_itself', { pieces: [a.piece], ...found });
  return says(CODES[state], { pieces: [a.piece, b.piece], ...found });
}

/** Of each two pieces that are too close or run into each other the worst pair of their bodies. */
export const worstPairs = kept((pairs: readonly PairReading[]): readonly PairReading[] => {
  const worst = new Map<string, PairReading>();
  for (const pair of pairs) {
    if (pairState(pair) === 'clear') continue;
    const { a, b } = pair;
    const key = a.piece < b.piece ? `${a.piece}\n${b.piece}` : `${b.piece}\n${a.piece}`;
    const before = worst.get(key);
    if (!before || worse(pair, before)) worst.set(key, pair);
  }
  return [...worst.values()];
});

/** The worst MOST_TOLD of them, in their order. */
function told(all: readonly PairReading[]): readonly PairReading[] {
  if (all.length <= MOST_TOLD) return all;
  const kept = new Set([...all].sort((a, b) => (worse(a, b) ? -1 : worse(b, a) ? 1 : 0)).slice(0, MOST_TOLD));
  return all.filter((pair) => kept.has(pair));
}

/**
 * One finding for each two pieces that are too close, the worst of their bodies; when there is none, one that says which
 * pair comes nearest to its limit. No finding when nothing is near anything. Of more than MOST_TOLD the worst have one each.
 */
export function clearance(plan: Plan, pairs: readonly PairReading[]): ReturnType<typeof says>[] {
  const found = told(worstPairs(pairs)).map((pair) => finding(plan, pair));
  if (found.length > 0 || pairs.length === 0) return found;
  const nearest = pairs.reduce((least, pair) => (shortfall(pair) < shortfall(least) ? pair : least));
  return [finding(plan, nearest)];
}
