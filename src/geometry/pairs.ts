/**
 * Every pair of bodies closer than a reach, for checks that look at all pairs in each frame.
 *
 * Two ways to find candidates, chosen by the number of bodies; the pairs and their gaps are the same by both:
 *   every pair  few bodies: nothing to build
 *   strips      sort by the boxes' left sides and sweep along strips of the floor: time in step with the number
 *               of bodies. A sweep without strips and a grid of square cells were both slower from 100 bodies to 5000.
 */
import { ALONE, type CoreTable } from './coreTable.ts';
import { measureInto, Nearest } from './nearest.ts';

export { CoreTable } from './coreTable.ts';

/** The gap of bodies i and j of a table, within 1e-9 mm of gapValue() in gap.ts; `near` is written over. */
export function gapInTable({ cores, radius }: CoreTable, i: number, j: number, near: Nearest): number {
  measureInto(near, cores, i, cores, j);
  return near.distance - (radius[i] + radius[j]);
}

/** Numbers of one body in a strip: minX, minY, maxY, z0, z1, group. */
const RECORD = 6;

/** What strips() works with. */
class Strips {
  /** The bodies by growing minX. */
  order = new Int32Array(0);
  bucketStart = new Int32Array(0);
  /** Where each strip's bodies begin, and the bodies of all strips with their numbers. */
  start = new Int32Array(0);
  body = new Int32Array(0);
  data = new Float64Array(0);
}

/** Pairs found: bodies ia[k] < ib[k] of the table and their gap, for k below count. In no order, but always the same. */
export class Pairs {
  count = 0;
  /** So many pairs at least whose boxes and heights are near enough were not measured: there were more than asked for. 0: all were. */
  left = 0;
  ia: Int32Array;
  ib: Int32Array;
  gap: Float64Array;
  private readonly near = new Nearest();
  /** What closePairs() works with, kept for the next question. */
  readonly strips = new Strips();

  constructor(capacity = 256) {
    this.ia = new Int32Array(capacity);
    this.ib = new Int32Array(capacity);
    this.gap = new Float64Array(capacity);
  }

  /** Measures a pair in the next free place, and keeps it if it is closer than the reach. */
  keepIfCloser(table: CoreTable, i: number, j: number, reach: number): void {
    const gap = gapInTable(table, i, j, this.near);
    if (gap >= reach) return;
    const k = this.count;
    if (k === this.gap.length) this.grow();
    this.gap[k] = gap;
    this.ia[k] = Math.min(i, j);
    this.ib[k] = Math.max(i, j);
    this.count = k + 1;
  }

  private grow(): void {
    const { ia, ib, gap } = this;
    const capacity = 2 * gap.length + 64;
    this.ia = new Int32Array(capacity);
    this.ib = new Int32Array(capacity);
    this.gap = new Float64Array(capacity);
    this.ia.set(ia);
    this.ib.set(ib);
    this.gap.set(gap);
  }
}

interface CloseOptions {
  /**
   * Only pairs whose height intervals are closer than this, mm; intervals that touch are 0 apart, overlapping ones less.
   * Infinity leaves heights out.
   */
  readonly heightSlackMm: number;
  /** Where the pairs go, its old content dropped; a new list if left out. */
  readonly out?: Pairs;
  /**
   * So many pairs are measured at most, and how many more there are at least is left in `left`: where all stands in a heap, pairs grow
   * with the square of the bodies. Each body has its share of them, so that what stands apart from the heap is measured whole.
   */
  readonly most?: number;
  /** For tests and benches; left to the number of bodies otherwise. */
  readonly way?: 'every' | 'strips';
}

/** Up to here looking at every pair costs no more than sorting; measured in tests/bench/gap.bench.ts. */
const EVERY_UP_TO = 50;
/** Where there are too many candidates for a body, they are counted up to here. */
const MOST_COUNTED = 256;
/** Narrower strips hold many bodies twice, wider ones more strangers; 600 and 900 mm were measured and were no better. */
const STRIP_MM = 1200;

/**
 * All pairs with gap < reachMm whose heights are closer than the slack, but for bodies of one group.
 *
 * Units:  mm. Exact: each gap as gapInTable() gives it, and no pair is missed.
 * Inputs: a reach that is a number; a negative one finds pairs that overlap by more.
 */
export function closePairs(table: CoreTable, reachMm: number, options: CloseOptions): Pairs {
  const out = options.out ?? new Pairs();
  out.count = 0;
  const slack = options.heightSlackMm;
  out.left = 0;
  const way = options.way ?? (table.count <= EVERY_UP_TO ? 'every' : 'strips');
  if (way === 'every') everyPair(table, reachMm, slack, out);
  else strips(table, reachMm, slack, options.most ?? Number.POSITIVE_INFINITY, out);
  return out;
}

function everyPair(table: CoreTable, reach: number, slack: number, out: Pairs): void {
  const { count, minX, minY, maxX, maxY, z0, z1, group } = table;
  // Boxes are never farther apart than the bodies: what this skips has a gap of at least the reach, but for rounding.
  for (let i = 0; i < count; i++) {
    const left = minX[i] - reach;
    const right = maxX[i] + reach;
    const low = minY[i] - reach;
    const high = maxY[i] + reach;
    const below = z0[i] - slack;
    const above = z1[i] + slack;
    for (let j = i + 1; j < count; j++) {
      if (minX[j] >= right || maxX[j] <= left || minY[j] >= high || maxY[j] <= low) continue;
      if (z0[j] >= above || z1[j] <= below) continue;
      if (group[j] === group[i] && group[i] !== ALONE) continue;
      out.keepIfCloser(table, i, j, reach);
    }
  }
}

/** Fills `order` with the bodies by growing minX: into as many buckets as bodies, then by insertion. */
function sortByLeft(table: CoreTable, work: Strips): void {
  const { count, minX } = table;
  if (work.order.length < count) {
    work.order = new Int32Array(2 * count);
    work.bucketStart = new Int32Array(2 * count + 1);
  }
  const sorted = work.order;
  const bucket = work.bucketStart;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    if (minX[i] < least) least = minX[i];
    if (minX[i] > most) most = minX[i];
  }
  const scale = most > least ? (count - 1) / (most - least) : 0;
  bucket.fill(0, 0, count + 1);
  for (let i = 0; i < count; i++) bucket[((minX[i] - least) * scale) | 0]++;
  let before = 0;
  for (let k = 0; k < count; k++) {
    const size = bucket[k];
    bucket[k] = before;
    before += size;
  }
  for (let i = 0; i < count; i++) sorted[bucket[((minX[i] - least) * scale) | 0]++] = i;
  for (let k = 1; k < count; k++) {
    const body = sorted[k];
    const left = minX[body];
    let at = k;
    while (at > 0 && minX[sorted[at - 1]] > left) {
      sorted[at] = sorted[at - 1];
      at--;
    }
    sorted[at] = body;
  }
}

/**
 * Sorts by left sides, lays the bodies out strip by strip in that order (in each strip they touch), and sweeps along
 * each strip. A pair that shares several strips belongs to the one where the bodies' common stretch of y begins.
 */
function strips(table: CoreTable, reach: number, slack: number, most: number, out: Pairs): void {
  const { count, minX, minY, maxX, maxY, z0, z1, group } = table;
  if (count === 0) return;
  const work = out.strips;
  sortByLeft(table, work);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    if (minY[i] < low) low = minY[i];
    if (maxY[i] > high) high = maxY[i];
  }
  // Bodies are widened by half the reach each, so that bodies within reach share a strip; a negative reach needs none.
  const widen = Math.max(reach, 0) / 2;
  const base = low - widen;
  // No more strips than bodies, however far apart they are.
  const perMm = 1 / Math.max(STRIP_MM, (high + widen - base) / count);
  const strip = (y: number) => ((y - base) * perMm) | 0;
  const stripCount = strip(high + widen) + 1;

  // How many bodies in each strip, then where each strip begins.
  if (work.start.length < stripCount + 1) work.start = new Int32Array(2 * stripCount + 1);
  const { start } = work;
  start.fill(0, 0, stripCount + 1);
  for (let i = 0; i < count; i++) {
    const last = strip(maxY[i] + widen);
    for (let r = strip(minY[i] - widen); r <= last; r++) start[r]++;
  }
  let places = 0;
  for (let r = 0; r <= stripCount; r++) {
    const size = start[r];
    start[r] = places;
    places += size;
  }
  if (work.body.length < places) {
    work.body = new Int32Array(2 * places);
    work.data = new Float64Array(2 * places * RECORD);
  }
  const { order: sorted, body: bodies, data: s } = work;
  for (let k = 0; k < count; k++) {
    const i = sorted[k];
    const last = strip(maxY[i] + widen);
    for (let r = strip(minY[i] - widen); r <= last; r++) {
      const place = start[r]++;
      bodies[place] = i;
      const at = place * RECORD;
      s[at] = minX[i];
      s[at + 1] = minY[i];
      s[at + 2] = maxY[i];
      s[at + 3] = z0[i];
      s[at + 4] = z1[i];
      s[at + 5] = group[i];
    }
  }

  // Filling moved each strip's start to its end.
  /** Looks at `each` candidates of each place at most, and measures them. `counts`: how many each place has is all that is asked. */
  const sweep = (each: number, counts: Int32Array | null): void => {
    let from = 0;
    for (let r = 0; r < stripCount; r++) {
      const to = start[r];
      for (let k = from; k < to; k++) {
        const i = bodies[k];
        const right = maxX[i] + reach;
        const bottom = minY[i] - reach;
        const top = maxY[i] + reach;
        const below = z0[i] - slack;
        const above = z1[i] + slack;
        const own = group[i];
        let found = 0;
        for (let m = k + 1, at = RECORD * m; m < to && s[at] < right; m++, at += RECORD) {
          if (s[at + 1] >= top || s[at + 2] <= bottom || s[at + 3] >= above || s[at + 4] <= below) continue;
          if (s[at + 5] === own && own !== ALONE) continue;
          if (strip(Math.max(minY[i], s[at + 1]) - widen) !== r) continue;
          found++;
          if (counts === null) out.keepIfCloser(table, i, bodies[m], reach);
          if (found === each) break;
        }
        if (counts !== null) counts[k] = found;
        if (each === Number.POSITIVE_INFINITY && out.count > most) return;
      }
      from = to;
    }
  };
  sweep(Number.POSITIVE_INFINITY, null);
  if (out.count <= most) return;
  const counts = new Int32Array(places);
  out.count = 0;
  sweep(MOST_COUNTED, counts);
  const share = shareOf(counts, most);
  for (const count of counts) out.left += Math.max(0, count - share);
  sweep(share, null);
}

/** The largest number that each of some counts may have of `most` in all; 1 at least. */
function shareOf(counts: Int32Array, most: number): number {
  let [low, high] = [1, Math.max(1, most)];
  while (low < high) {
    const share = Math.ceil((low + high) / 2);
    let sum = 0;
    for (const count of counts) sum += Math.min(count, share);
    if (sum <= most) low = share;
    else high = share - 1;
  }
  return low;
}
