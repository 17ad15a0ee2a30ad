/**
 * Every pair of bodies closer than a reach, for checks that look at all pairs in each frame.
 *
 * Three ways to find candidates, chosen by the number of bodies; the pairs and their gaps are the same by each:
 *   every pair     few bodies: nothing to build
 *   sort and sweep by the boxes' left sides: a kit or two
 *   grid           of square cells: growth in step with the number of bodies, for festival stages
 */
import { type CoreTable, gapInTable } from './gapKernel.ts';

export { CoreTable, gapInTable, type Standing } from './gapKernel.ts';

/** Pairs found: bodies ia[k] < ib[k] of the table and their gap, for k below count. In no order, but always the same. */
export class Pairs {
  count = 0;
  ia: Int32Array;
  ib: Int32Array;
  gap: Float64Array;

  constructor(capacity = 256) {
    this.ia = new Int32Array(capacity);
    this.ib = new Int32Array(capacity);
    this.gap = new Float64Array(capacity);
  }

  push(i: number, j: number, gap: number): void {
    if (this.count === this.gap.length) this.grow();
    const k = this.count++;
    this.ia[k] = Math.min(i, j);
    this.ib[k] = Math.max(i, j);
    this.gap[k] = gap;
  }

  private grow(): void {
    const wider = new Pairs(2 * this.gap.length + 64);
    wider.ia.set(this.ia);
    wider.ib.set(this.ib);
    wider.gap.set(this.gap);
    this.ia = wider.ia;
    this.ib = wider.ib;
    this.gap = wider.gap;
  }
}

export interface CloseOptions {
  /**
   * Only pairs whose height intervals are closer than this, mm; intervals that touch are 0 apart, overlapping ones less.
   * Infinity leaves heights out.
   */
  readonly heightSlackMm: number;
  /** Where the pairs go, its old content dropped; a new list if left out. */
  readonly out?: Pairs;
  /** For tests and benches; left to the number of bodies otherwise. */
  readonly way?: 'every' | 'sweep' | 'grid';
}

/** Up to here looking at every pair costs less than sorting; measured in tests/bench/gap.bench.ts. */
const EVERY_UP_TO = 60;
/** From here the sweep's long columns cost more than building the grid; measured likewise. */
const SWEEP_UP_TO = 500;
/** A cell about as wide as a large drum, so that most bodies lie in one to four cells. */
const CELL_MM = 600;
/** At most this many cells a body, so that bodies far apart cannot ask for a giant grid: the cells grow instead. */
const CELLS_PER_BODY = 4;

/**
 * All pairs with gap < reachMm whose heights are closer than the slack.
 *
 * Units:  mm. Exact: each gap as gapInTable() gives it, and no pair is missed.
 * Inputs: a reach that is a number; a negative one finds pairs that overlap by more.
 */
export function closePairs(table: CoreTable, reachMm: number, options: CloseOptions): Pairs {
  const out = options.out ?? new Pairs();
  out.count = 0;
  const slack = options.heightSlackMm;
  const way = options.way ?? (table.count <= EVERY_UP_TO ? 'every' : table.count <= SWEEP_UP_TO ? 'sweep' : 'grid');
  if (way === 'every') everyPair(table, reachMm, slack, out);
  else if (way === 'sweep') sweep(table, reachMm, slack, out);
  else grid(table, reachMm, slack, out);
  return out;
}

function everyPair(table: CoreTable, reach: number, slack: number, out: Pairs): void {
  const { count, minX, minY, maxX, maxY, z0, z1 } = table;
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
      const gap = gapInTable(table, i, j);
      if (gap < reach) out.push(i, j, gap);
    }
  }
}

/** Scratch of sweep() and grid(): never leaves this module. */
let order = new Int32Array(0);
let bucketStart = new Int32Array(0);
let sorted = new Float64Array(0);
let cellStart = new Int32Array(0);
let cellBodies = new Int32Array(0);

/** Fills `order` with the bodies by growing minX: into as many buckets as bodies, then by insertion. */
function sortByLeft(table: CoreTable): void {
  const { count, minX } = table;
  if (order.length < count) {
    order = new Int32Array(2 * count);
    bucketStart = new Int32Array(2 * count + 1);
    sorted = new Float64Array(12 * count);
  }
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    if (minX[i] < least) least = minX[i];
    if (minX[i] > most) most = minX[i];
  }
  const scale = most > least ? (count - 1) / (most - least) : 0;
  bucketStart.fill(0, 0, count + 1);
  for (let i = 0; i < count; i++) bucketStart[((minX[i] - least) * scale) | 0]++;
  let before = 0;
  for (let k = 0; k < count; k++) {
    const size = bucketStart[k];
    bucketStart[k] = before;
    before += size;
  }
  for (let i = 0; i < count; i++) order[bucketStart[((minX[i] - least) * scale) | 0]++] = i;
  for (let k = 1; k < count; k++) {
    const body = order[k];
    const left = minX[body];
    let at = k;
    while (at > 0 && minX[order[at - 1]] > left) {
      order[at] = order[at - 1];
      at--;
    }
    order[at] = body;
  }
}

function sweep(table: CoreTable, reach: number, slack: number, out: Pairs): void {
  const { count, minX, minY, maxX, maxY, z0, z1 } = table;
  sortByLeft(table);
  // Five numbers a body side by side in sorted order, so that the inner loop runs along memory.
  const s = sorted;
  for (let k = 0, at = 0; k < count; k++, at += 5) {
    const body = order[k];
    s[at] = minX[body];
    s[at + 1] = minY[body];
    s[at + 2] = maxY[body];
    s[at + 3] = z0[body];
    s[at + 4] = z1[body];
  }
  for (let k = 0; k < count; k++) {
    const i = order[k];
    const right = maxX[i] + reach;
    const low = minY[i] - reach;
    const high = maxY[i] + reach;
    const below = z0[i] - slack;
    const above = z1[i] + slack;
    for (let m = k + 1, at = 5 * m; m < count && s[at] < right; m++, at += 5) {
      if (s[at + 1] >= high || s[at + 2] <= low || s[at + 3] >= above || s[at + 4] <= below) continue;
      const j = order[m];
      const gap = gapInTable(table, i, j);
      if (gap < reach) out.push(i, j, gap);
    }
  }
}

function grid(table: CoreTable, reach: number, slack: number, out: Pairs): void {
  const { count, minX, minY, maxX, maxY, z0, z1 } = table;
  if (count === 0) return;
  let left = Number.POSITIVE_INFINITY;
  let low = Number.POSITIVE_INFINITY;
  let right = Number.NEGATIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    left = Math.min(left, minX[i]);
    low = Math.min(low, minY[i]);
    right = Math.max(right, maxX[i]);
    high = Math.max(high, maxY[i]);
  }
  // Boxes are widened by half the reach each, so that bodies within reach share a cell; a negative reach needs none.
  const widen = Math.max(reach, 0) / 2;
  left -= widen;
  low -= widen;
  let cell = CELL_MM;
  let perCell: number;
  let columns: number;
  let rows: number;
  for (;;) {
    // The same arithmetic as column() and row() below, so that the last body falls in the last cell.
    perCell = 1 / cell;
    columns = (((right + widen - left) * perCell) | 0) + 1;
    rows = (((high + widen - low) * perCell) | 0) + 1;
    if (columns * rows <= CELLS_PER_BODY * count + 16) break;
    cell *= 2;
  }
  const cells = columns * rows;
  if (cellStart.length < cells + 1) cellStart = new Int32Array(2 * cells + 1);
  cellStart.fill(0, 0, cells + 1);
  const column = (x: number) => ((x - left) * perCell) | 0;
  const row = (y: number) => ((y - low) * perCell) | 0;
  let places = 0;
  for (let i = 0; i < count; i++) {
    const c1 = column(maxX[i] + widen);
    const r1 = row(maxY[i] + widen);
    const c0 = column(minX[i] - widen);
    for (let r = row(minY[i] - widen); r <= r1; r++)
      for (let c = c0; c <= c1; c++) {
        cellStart[r * columns + c + 1]++;
        places++;
      }
  }
  if (cellBodies.length < places) cellBodies = new Int32Array(2 * places);
  for (let k = 0; k < cells; k++) cellStart[k + 1] += cellStart[k];
  // Filled from the last body backwards into each cell's end, so cellStart ends as it should.
  for (let i = count - 1; i >= 0; i--) {
    const c1 = column(maxX[i] + widen);
    const r1 = row(maxY[i] + widen);
    const c0 = column(minX[i] - widen);
    for (let r = row(minY[i] - widen); r <= r1; r++)
      for (let c = c0; c <= c1; c++) cellBodies[--cellStart[r * columns + c + 1]] = i;
  }
  // Each count slot k + 1 now holds the start of cell k.
  for (let k = 0; k < cells; k++) {
    const from = cellStart[k + 1];
    const to = k + 1 < cells ? cellStart[k + 2] : places;
    for (let m = from; m < to; m++) {
      const i = cellBodies[m];
      const bodyRight = maxX[i] + reach;
      const bodyLeft = minX[i] - reach;
      const bodyHigh = maxY[i] + reach;
      const bodyLow = minY[i] - reach;
      const below = z0[i] - slack;
      const above = z1[i] + slack;
      for (let n = m + 1; n < to; n++) {
        const j = cellBodies[n];
        if (minX[j] >= bodyRight || maxX[j] <= bodyLeft || minY[j] >= bodyHigh || maxY[j] <= bodyLow) continue;
        if (z0[j] >= above || z1[j] <= below) continue;
        // Two bodies may share several cells: the pair belongs to the cell where their widened boxes' overlap begins.
        const c = column(Math.max(minX[i], minX[j]) - widen);
        const r = row(Math.max(minY[i], minY[j]) - widen);
        if (r * columns + c !== k) continue;
        const gap = gapInTable(table, i, j);
        if (gap < reach) out.push(i, j, gap);
      }
    }
  }
}
