/**
 * The way in: how wide a body may be and still get from outside to the throne between what stands in its way.
 *
 * A round body of width w passes exactly where gaps are wider than w, so the throne is shut in as soon as obstacles whose
 * gaps are no wider than w form a ring about it. Gaps are added in growing order to a union-find that keeps, for each obstacle,
 * whether the way to its root crosses a ray from the throne an odd number of times. A gap that joins two obstacles of one
 * group against that parity closes a ring round the throne: that gap is the widest way in.
 *
 * Counts as an obstacle: every body but the throne's own that reaches above STEP_OVER_MM and begins below DUCK_UNDER_MM. Both
 * are our own defaults (common practice, no source): a T-foot, a pedal or a tripod's leg is stepped over, a high cymbal is ducked.
 *
 * Means:  the narrowest place on the best way from the seat on outwards. Long cores are cut into stretches, so that a throne
 *         between two walls has gaps on both its sides to be counted.
 * Exact:  the gap, where the narrowest place lies outwards of the seat; right beside the seat within what the walls splay over a
 *         stretch of CUT_MM. A throne within a stretch's bow (3 mm on a 750 mm bend) may be taken for its other side.
 * Null:   no obstacles round it: the player walks in from a side where nothing stands.
 * Source: a set in the plane cuts a point off from outside when it holds a closed curve that winds round it (Jordan); mod 2 the
 *         crossings of a ray tell.
 */

import { turn } from '../geometry/frame.ts';
import { gap } from '../geometry/gap.ts';
import { Lent } from '../geometry/lent.ts';
import { measureInto, Nearest, settleInto } from '../geometry/nearest.ts';
import { CoreTable, closePairs, gapInTable, Pairs } from '../geometry/pairs.ts';
import { bentCapsule, capsule, firstPoint, type Swept } from '../geometry/shapes.ts';
import { kept } from '../keep.ts';
import type { Body } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import { checkOf, code, type Drawn, type Measured, type OnePiece, type SomePieces, saysOf } from './codes.ts';
import { tipMargin } from './statics.ts';
import { leadsStraightOut } from './straightWay.ts';
import { isBelow } from './tolerance.ts';

/** What of the drummer has to get through. */
type BodyPart = 'hips' | 'knees' | 'shoulders';

export const WAY_IN = checkOf('wayIn', {
  word: 'Way in',
  caution: null,
  codes: {
    way_in_narrow: code<Measured & SomePieces & Drawn & { readonly of: BodyPart }>(
      'mm',
      'atLeast',
      ({ names: [first, second], value, limit }, { pieces, of }) =>
        pieces.length === 1
          ? `${first} leaves a way of ${value} to the throne, and ${limit} is wanted for the drummer’s ${of}.`
          : `The widest way to the throne, between ${first} and ${second}, is ${value}, and ${limit} is wanted for the drummer’s ${of}.`,
    ),
    /** Not measured: wider than the limit is all that is asked in a frame of a drag. */
    way_in_wide: code<OnePiece & { readonly value: null; readonly limit: number }>(
      'mm',
      'atLeast',
      ({ limit }) => `The way to the throne is wider than ${limit}.`,
    ),
  },
});
const says = saysOf(WAY_IN);

/** Lower than this is stepped over. */
const STEP_OVER_MM = 250;
/** Higher than this is passed under, leaning. */
const DUCK_UNDER_MM = 1200;
/** Straight edges and curved ones are cut into stretches of at most this length. */
const CUT_MM = 150;
/** Gaps are looked for up to here, then up to twice as far, and so on: most kits close below it. */
const FIRST_REACH_MM = 500;
/** Nothing in a plan is farther apart than this. */
const LAST_REACH_MM = 300_000;

export interface WayIn {
  /** mm; 0 or less: shut in. */
  readonly width: number;
  /** The two bodies it leads between, and their nearest points. */
  readonly a: Body;
  readonly b: Body;
  readonly line: readonly [number, number, number, number];
}

function segmentStretches(x0: number, y0: number, x1: number, y1: number, radius: number): Swept[] {
  const count = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0) / CUT_MM));
  const all: Swept[] = [];
  let [x, y] = [x0, y0];
  for (let k = 1; k <= count; k++) {
    const [nextX, nextY] = [x0 + ((x1 - x0) * k) / count, y0 + ((y1 - y0) * k) / count];
    all.push(capsule(x, y, nextX, nextY, radius));
    [x, y] = [nextX, nextY];
  }
  return all;
}

/** An obstacle in stretches that are short, straight or nearly so; a polygon by its edges, for nobody walks inside. */
function stretches({ core, radius }: Swept): Swept[] {
  switch (core.kind) {
    case 'point':
      return [{ core, radius }];
    case 'segment':
      return segmentStretches(core.x0, core.y0, core.x1, core.y1, radius);
    case 'arc': {
      const count = Math.ceil((core.r * core.sweep) / CUT_MM);
      const sweep = core.sweep / count;
      return Array.from({ length: count }, (_, k) =>
        bentCapsule(core.cx, core.cy, core.r, core.start + k * sweep, sweep, radius),
      );
    }
    case 'polygon': {
      const p = core.points;
      const all: Swept[] = [];
      for (let i = 0, n = p.length; i < n; i += 2)
        all.push(...segmentStretches(p[i], p[i + 1], p[(i + 2) % n], p[(i + 3) % n], radius));
      return all;
    }
  }
}

interface Part {
  readonly body: Body;
  readonly shape: Swept;
  /** A point of the stretch from which every other is reached in a straight line within it (an arc: within its bow). */
  readonly at: readonly [number, number];
}

/** Kept with the body: a drag makes new bodies only of what moves. */
const partsOfBody = kept((body: Body): readonly Part[] =>
  stretches(body.shape).map((shape) => ({ body, shape, at: firstPoint(shape.core) })),
);

/** A body's core by itself. */
const bareOf = kept(({ shape: { core } }: Body): Swept => ({ core, radius: 0 }));

/** Narrower rounds cover next to nothing, and are not asked about. */
const COVERS_FROM_MM = 50;

/**
 * The stretches of all obstacles, without what lies wholly under something round: a post under its cymbal is never nearer to
 * anything than the cymbal.
 */
function uncovered(obstacles: readonly Body[]): Part[] {
  const rounds: number[] = [];
  for (const { shape } of obstacles)
    if (shape.core.kind === 'point' && shape.radius >= COVERS_FROM_MM)
      rounds.push(shape.core.x, shape.core.y, shape.radius);
  const parts: Part[] = [];
  for (const body of obstacles)
    for (const part of partsOfBody(body)) if (!liesUnder(part.shape, rounds)) parts.push(part);
  return parts;
}

function liesUnder({ core, radius }: Swept, rounds: readonly number[]): boolean {
  if (core.kind === 'arc' || core.kind === 'polygon') return false;
  const point = core.kind === 'point';
  const x0 = point ? core.x : core.x0;
  const y0 = point ? core.y : core.y0;
  const x1 = point ? x0 : core.x1;
  const y1 = point ? y0 : core.y1;
  for (let k = 0; k < rounds.length; k += 3) {
    const x = rounds[k];
    const y = rounds[k + 1];
    const room = rounds[k + 2] - radius;
    if (room <= 0 || (x0 - x) * (x0 - x) + (y0 - y) * (y0 - y) > room * room) continue;
    if (point || (x1 - x) * (x1 - x) + (y1 - y) * (y1 - y) <= room * room) return true;
  }
  return false;
}

const LEFT = 1;
const RIGHT = 2;
const BELOW = 4;

/** Nearer to the ray's line than this a core is on neither side of it for sure: boxes are rounded. */
const BESIDE_MM = 1e-6;

/** On which sides of the ray upwards from (x, y) a whole core lies, as bits. Two that share a side are joined without crossing it. */
function sideOfRay({ minX, maxX, maxY, radius }: CoreTable, i: number, x: number, y: number): number {
  const r = radius[i];
  return (
    (maxX[i] - r < x - BESIDE_MM ? LEFT : 0) |
    (minX[i] + r > x + BESIDE_MM ? RIGHT : 0) |
    (maxY[i] - r < y - BESIDE_MM ? BELOW : 0)
  );
}

/** Whether the segment crosses the ray from (x, y) upwards. A corner on the ray belongs to the side right of it. */
function crosses(x: number, y: number, x0: number, y0: number, x1: number, y1: number): boolean {
  if (x0 <= x === x1 <= x) return false;
  const side = turn(x0, y0, x1, y1, x, y);
  return x1 > x0 ? side < 0 : side > 0;
}

class ParityForest {
  private parent = new Int32Array(0);
  /** Parity of the way to the parent. */
  private odd = new Uint8Array(0);
  private markedParent = this.parent;
  private markedOdd = this.odd;
  private way = 0;

  /** For so many, each by itself. */
  begin(count: number): void {
    if (count > this.parent.length) {
      this.parent = new Int32Array(2 * count);
      this.odd = new Uint8Array(2 * count);
      this.markedParent = new Int32Array(2 * count);
      this.markedOdd = new Uint8Array(2 * count);
    }
    this.clear();
  }

  /** The root of i's group; the parity of the way there is left in `way`. */
  private root(i: number): number {
    const { parent, odd } = this;
    let root = i;
    let way = 0;
    while (parent[root] !== root) {
      way ^= odd[root];
      root = parent[root];
    }
    this.way = way;
    // Shorten the way for the next question.
    let at = i;
    while (parent[at] !== root && at !== root) {
      const next = parent[at];
      const step = odd[at];
      parent[at] = root;
      odd[at] = way;
      way ^= step;
      at = next;
    }
    return root;
  }

  /** Whether both are of one group, joined by a way of even parity. */
  holdsEvenly(i: number, j: number): boolean {
    const a = this.root(i);
    const way = this.way;
    return a === this.root(j) && way === this.way;
  }

  /** Each by itself again. */
  clear(): void {
    for (let i = 0; i < this.parent.length; i++) this.parent[i] = i;
    this.odd.fill(0);
  }

  /** Remembers the groups as they are now, for backToMark(). */
  mark(): void {
    this.markedParent.set(this.parent);
    this.markedOdd.set(this.odd);
  }

  backToMark(): void {
    this.parent.set(this.markedParent);
    this.odd.set(this.markedOdd);
  }

  /** Joins two by a way of this parity. True when they were one group and the way closes an odd ring. */
  join(i: number, j: number, odd: number): boolean {
    const a = this.root(i);
    const wayA = this.way;
    const b = this.root(j);
    const way = wayA ^ this.way ^ odd;
    if (a === b) return way === 1;
    this.parent[a] = b;
    this.odd[a] = way;
    return false;
  }
}

/** Gaps are put in order to this part of a mm, which leaves a number room for 2^21 pairs. */
const ORDER_PER_MM = 2 ** 20;
/** So many stretches have their gaps put in order: several times what stands about the most crowded kit. */
const MOST_MEASURED = 2000;
/** Gaps in one batch: whether a batch closes a ring is found without putting it in order. */
const BATCH_MM = 50;

/** What a search works with, kept for the next one. */
class Work {
  readonly table = new CoreTable();
  readonly near = new Nearest();
  readonly found = new Pairs();
  readonly forest = new ParityForest();
  /** On which sides of the ray each part lies. */
  sides = new Uint8Array(0);
  /** A box for each body: left, low, right, top. */
  box = new Float64Array(0);
  // Pairs by batch: those of batch k are batchPairs[batchStart[k]] up to batchStart[k + 1].
  batchStart = new Int32Array(64);
  private batchPairs = new Int32Array(1024);

  /** Lays out the pairs found whose gap is at least `from` by batches of growing gaps (all that overlap first) and gives their number. */
  intoBatches(from: number, reach: number): number {
    const { gap, count } = this.found;
    const batches = 2 + Math.floor(Math.max(0, reach) / BATCH_MM);
    if (this.batchStart.length < batches + 2) this.batchStart = new Int32Array(2 * batches + 2);
    if (this.batchPairs.length < count) this.batchPairs = new Int32Array(2 * count);
    const start = this.batchStart.fill(0, 0, batches + 2);
    const batchOf = (k: number) => (gap[k] <= 0 ? 0 : 1 + Math.floor(gap[k] / BATCH_MM));
    for (let k = 0; k < count; k++) if (gap[k] >= from) start[batchOf(k) + 2]++;
    for (let k = 2; k < batches + 2; k++) start[k] += start[k - 1];
    for (let k = 0; k < count; k++) if (gap[k] >= from) this.batchPairs[start[batchOf(k) + 1]++] = k;
    return batches;
  }

  batch(k: number): Int32Array {
    return this.batchPairs.subarray(this.batchStart[k], this.batchStart[k + 1]);
  }

  /** A batch by growing gap; within a millionth of a mm in the order they were found. Sorting plain numbers is far the fastest. */
  byGap(batch: number): Float64Array {
    const { gap, count } = this.found;
    const slots = Math.max(1, count);
    const keys = Float64Array.from(this.batch(batch), (k) => Math.round(gap[k] * ORDER_PER_MM) * slots + k).sort();
    for (let k = 0; k < keys.length; k++) keys[k] -= Math.floor(keys[k] / slots) * slots;
    return keys;
  }
}

const buffers = new Lent(() => new Work());

/**
 * Whether (x, y) lies within the hull of the cores for sure, at one look: there are points of theirs all round it, with less than half a
 * turn between any two neighbours. Of eight sectors no three in a row are empty then.
 */
function isAmong(obstacles: readonly Body[], x: number, y: number): boolean {
  let seen = 0;
  for (const {
    shape: { core },
  } of obstacles) {
    if (core.kind === 'arc') continue;
    const dx = (core.kind === 'point' ? core.x : core.kind === 'segment' ? core.x0 : core.points[0]) - x;
    const dy = (core.kind === 'point' ? core.y : core.kind === 'segment' ? core.y0 : core.points[1]) - y;
    if (dx === 0 && dy === 0) continue;
    // Quarters counter-clockwise, and in which half of its quarter.
    const quarter = dx > 0 && dy >= 0 ? 0 : dx <= 0 && dy > 0 ? 1 : dx < 0 && dy <= 0 ? 2 : 3;
    const isSecond = quarter % 2 === 0 ? Math.abs(dy) >= Math.abs(dx) : Math.abs(dx) >= Math.abs(dy);
    seen |= 1 << (2 * quarter + (isSecond ? 1 : 0));
  }
  const empty = ~(seen | (seen << 8));
  return (empty & (empty >> 1) & (empty >> 2) & 0xff) === 0;
}

/**
 * The widest way from outside to (x, y), the throne's centre; null also when it is as wide as `below` or wider.
 * Inputs: bodies without the throne's own.
 */
export function widestWay(
  obstacles: readonly Body[],
  x: number,
  y: number,
  below = Number.POSITIVE_INFINITY,
): WayIn | null {
  if (below < Number.POSITIVE_INFINITY && leadsStraightOut(obstacles, x, y, below)) return null;
  // Every ring lies within the hull of the cores.
  if (!isAmong(obstacles, x, y)) {
    const hull = tipMargin(obstacles.map(bareOf), x, y);
    if (!hull || hull.marginMm < 0) return null;
  }
  const parts = uncovered(obstacles);
  return buffers.use((work) => {
    const { table, near, found } = work;
    table.clear();
    for (const { shape } of parts) table.add(shape, 0, 1);
    const { forest } = work;
    forest.begin(parts.length);
    if (work.sides.length < parts.length) work.sides = new Uint8Array(2 * parts.length);
    const { sides } = work;
    for (let i = 0; i < parts.length; i++) sides[i] = sideOfRay(table, i, x, y);
    /** Joins the two of a pair, which may be measured just before; whether that closes a ring round (x, y). */
    const closing = { i: 0, j: 0 };
    const joins = (i: number, j: number, measured: boolean): boolean => {
      closing.i = i;
      closing.j = j;
      let odd = 0;
      if ((sides[i] & sides[j]) === 0) {
        const [a, b] = [parts[i], parts[j]];
        if (!measured) measureInto(near, table.cores, i, table.cores, j);
        settleInto(near, table.cores, i, table.cores, j);
        if (crosses(x, y, a.at[0], a.at[1], near.ax, near.ay)) odd ^= 1;
        if (crosses(x, y, near.ax, near.ay, near.bx, near.by)) odd ^= 1;
        if (crosses(x, y, near.bx, near.by, b.at[0], b.at[1])) odd ^= 1;
      }
      return forest.join(i, j, odd);
    };
    if (below < Number.POSITIVE_INFINITY && !closesBelow(below, parts, work, joins)) return null;
    forest.clear();
    // In a heap gaps grow with the square of what lies there: where overlaps alone shut the throne in, that is all there is to say.
    if (parts.length > MOST_MEASURED && closesBelow(0, parts, work, joins))
      return wayBetween(parts[closing.i], parts[closing.j], 0);
    forest.clear();
    // What is nearer than the last reach has had its turn already.
    let done = Number.NEGATIVE_INFINITY;
    for (let reach = Math.min(FIRST_REACH_MM, below); ; done = reach, reach = Math.min(2 * reach, below)) {
      const { ia, ib, gap: gaps } = closePairs(table, reach, { heightSlackMm: Number.POSITIVE_INFINITY, out: found });
      const batches = work.intoBatches(done, reach);
      for (let batch = 0; batch < batches; batch++) {
        forest.mark();
        const batchPairs = work.batch(batch);
        let ring = false;
        for (let m = 0; m < batchPairs.length && !ring; m++) ring = joins(ia[batchPairs[m]], ib[batchPairs[m]], false);
        if (!ring) continue;
        // Some gap of this batch closes a ring: again from the batch's beginning, now by growing gap.
        forest.backToMark();
        for (const k of work.byGap(batch))
          if (joins(ia[k], ib[k], false)) return wayBetween(parts[ia[k]], parts[ib[k]], gaps[k]);
      }
      if (reach >= below || reach > LAST_REACH_MM) return null;
    }
  });
}

/**
 * Whether gaps below a width close a ring at all, in whatever order they come: most kits have a wide way in, and for those this is
 * all there is to do. A pair that one group holds on one side of the ray changes nothing and is not measured.
 */
function closesBelow(
  width: number,
  parts: readonly Part[],
  work: Work,
  joins: (i: number, j: number, measured: boolean) => boolean,
): boolean {
  const { table, near, sides, forest } = work;
  const { minX, minY, maxX, maxY } = table;
  // A body's stretches lie in a row; its box, widened by the width, keeps most bodies apart at one look.
  const first: number[] = [];
  for (let i = 0; i < parts.length; i++) if (i === 0 || parts[i].body !== parts[i - 1].body) first.push(i);
  const count = first.length;
  first.push(parts.length);
  if (work.box.length < 4 * count) work.box = new Float64Array(8 * count);
  const { box } = work;
  for (let a = 0; a < count; a++) {
    let [left, low, right, top] = [Infinity, Infinity, -Infinity, -Infinity];
    for (let i = first[a]; i < first[a + 1]; i++) {
      if (minX[i] < left) left = minX[i];
      if (minY[i] < low) low = minY[i];
      if (maxX[i] > right) right = maxX[i];
      if (maxY[i] > top) top = maxY[i];
    }
    box[4 * a] = left;
    box[4 * a + 1] = low;
    box[4 * a + 2] = right;
    box[4 * a + 3] = top;
  }
  for (let a = 0; a < count; a++) {
    const left = box[4 * a] - width;
    const low = box[4 * a + 1] - width;
    const right = box[4 * a + 2] + width;
    const top = box[4 * a + 3] + width;
    for (let b = a; b < count; b++) {
      if (box[4 * b] >= right || box[4 * b + 2] <= left || box[4 * b + 1] >= top || box[4 * b + 3] <= low) continue;
      for (let i = first[a]; i < first[a + 1]; i++) {
        const iLeft = minX[i] - width;
        const iLow = minY[i] - width;
        const iRight = maxX[i] + width;
        const iTop = maxY[i] + width;
        if (box[4 * b] >= iRight || box[4 * b + 2] <= iLeft || box[4 * b + 1] >= iTop || box[4 * b + 3] <= iLow)
          continue;
        for (let j = a === b ? i + 1 : first[b]; j < first[b + 1]; j++) {
          if (minX[j] >= iRight || maxX[j] <= iLeft || minY[j] >= iTop || maxY[j] <= iLow) continue;
          if ((sides[i] & sides[j]) !== 0 && forest.holdsEvenly(i, j)) continue;
          if (gapInTable(table, i, j, near) < width && joins(i, j, true)) return true;
        }
      }
    }
  }
  return false;
}

function wayBetween(a: Part, b: Part, width: number): WayIn {
  const { ax, ay, bx, by } = gap(a.shape, b.shape);
  return { width, a: a.body, b: b.body, line: [ax, ay, bx, by] };
}

/** Whether a body stands in the way of someone who walks to the throne. */
function inTheWay({ kind, part, z0, z1 }: Body): boolean {
  // A bass drum's other slabs lie within its shell.
  if (kind === 'bassDrum' && part !== 'shell') return false;
  return z1 > STEP_OVER_MM && z0 < DUCK_UNDER_MM;
}

/** The way in to the setup's first throne; null without a throne, where nothing rings it, or where it is as wide as `below`. */
export function wayIn(bodies: readonly Body[], below = Number.POSITIVE_INFINITY): WayIn | null {
  const seat = bodies.find((body) => body.kind === 'throne' && body.part === 'seat');
  if (!seat) return null;
  const { core } = seat.shape;
  const [x, y] = core.kind === 'polygon' ? middle(core.points) : firstPoint(core);
  const obstacles = bodies.filter((body) => body.piece !== seat.piece && inTheWay(body));
  return widestWay(obstacles, x, y, below);
}

/**
 * Width of the way in, mm, for readings; null where nothing narrows it. Worked out when first asked for, then kept with the
 * layout: it costs more than all other readings together, and a drag does not ask for it.
 */
export const wayInReading = kept((layout: Layout): number | null => wayIn(layout.bodies)?.width ?? null);

/**
 * Where nobody is seated: narrower than this is tight. Legroom's own default: a little less than a man's shoulders, for one turns when
 * stepping in (bideltoid breadth in ANSUR II, median 509 mm).
 */
export const WAY_IN_MM = 450;

/** Clothes, and a sway, to both sides together. Common practice, no source. */
const SWAY_MM = 50;

interface Wanted {
  readonly of: BodyPart;
  readonly widthMm: number;
  /** What reaches no higher is no matter to it. */
  readonly overMm: number;
}

/**
 * What gets to the throne: hips, past what reaches above the knees, and both knees side by side, past all that is not stepped over.
 * Breadths are the drummer's (hip breadth, sitting; the leg at the knee).
 */
function wantedFor(figure: Layout['figure']): readonly Wanted[] {
  if (!figure) return [{ of: 'shoulders', widthMm: WAY_IN_MM, overMm: STEP_OVER_MM }];
  const { sizes } = figure.sitter;
  return [
    { of: 'hips', widthMm: sizes.hipMm + SWAY_MM, overMm: sizes.kneeMm + sizes.shoeMm },
    { of: 'knees', widthMm: 4 * figure.radiiMm.knee + SWAY_MM, overMm: STEP_OVER_MM },
  ];
}

/** Nothing to say without a throne. A drummer climbs over if need be, so a narrow way is tight and never blocked. */
export function wayInFinding({ bodies, figure }: Layout): ReturnType<typeof says>[] {
  const seat = bodies.find((body) => body.kind === 'throne' && body.part === 'seat');
  if (!seat) return [];
  const all = wantedFor(figure);
  for (const { of, widthMm, overMm } of all) {
    const narrow = wayIn(
      bodies.filter((body) => body.z1 > overMm || body.piece === seat.piece),
      widthMm,
    );
    if (!narrow || !isBelow(narrow.width, widthMm)) continue;
    const { a, b, line, width } = narrow;
    return [
      says('way_in_narrow', {
        state: 'tight',
        limit: widthMm,
        source: "Legroom's own default",
        pieces: a.piece === b.piece ? [a.piece] : [a.piece, b.piece],
        bodies: [a.id, b.id],
        value: width,
        at: [(line[0] + line[2]) / 2, (line[1] + line[3]) / 2],
        line,
        of,
      }),
    ];
  }
  const base = { limit: all[0].widthMm, source: "Legroom's own default", bodies: [], value: null, at: null };
  return [says('way_in_wide', { state: 'clear', ...base, pieces: [seat.piece] })];
}

function middle(points: readonly number[]): [number, number] {
  let x = 0;
  let y = 0;
  for (let i = 0; i < points.length; i += 2) {
    x += points[i];
    y += points[i + 1];
  }
  const n = points.length / 2;
  return [x / n, y / n];
}
