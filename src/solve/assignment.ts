/**
 * Which owned part serves which need: as few needs as possible left without a part, and among all such ways the least waste.
 *
 * State: needs are taken in one at a time. At every moment the needs so far are served as well as can be, and two prices
 * (potentials) prove it: price(need) + price(part) is nowhere above the waste of serving that need with that part, and equal
 * where it is served so. A new need looks for the cheapest way to a free part, perhaps moving others along (an augmenting
 * path); the way is found as Dijkstra finds it, over wastes less both prices, which are never below 0. Going without is a
 * part of each need's own, dearer than all waste together: that makes the order lexicographic with one number.
 *
 * Exact:   wastes are rounded to whole thousandths (of a mm), and everything after that is whole numbers below 2^53.
 * Speed:   n^2 (n + m) steps for n needs and m parts.
 * Inputs:  a row a need, a column a part; waste >= 0, Infinity or NaN where the part cannot serve.
 * Throws:  RangeError for a negative waste, rows of different lengths, or wastes too large to add up exactly.
 * Source:  Kuhn, The Hungarian method for the assignment problem (1955); the shortest-path form after Jonker and Volgenant
 *          (1987), written from their description.
 */
export interface Assignment {
  /** For each need the part that serves it, or null. */
  readonly part: readonly (number | null)[];
  readonly missing: number;
  /** Of the needs that are served; in the unit of the wastes, to a thousandth. */
  readonly waste: number;
}

const STEPS_PER_UNIT = 1000;

/** Row by row, with a column of its own for each need at the end: going without. */
function wholeCosts(waste: readonly (readonly number[])[], parts: number): { cost: Float64Array; columns: number } {
  const needs = waste.length;
  const columns = parts + needs;
  const cost = new Float64Array(needs * columns).fill(Number.POSITIVE_INFINITY);
  let most = 0;
  waste.forEach((row, i) => {
    if (row.length !== parts) throw new RangeError('Every need must say its waste with every part.');
    row.forEach((each, j) => {
      if (each < 0) throw new RangeError(`A waste cannot be negative, and one is ${each}.`);
      if (!(each < Number.POSITIVE_INFINITY)) return;
      const whole = Math.round(each * STEPS_PER_UNIT);
      cost[i * columns + j] = whole;
      most = Math.max(most, whole);
    });
  });
  // One need more left without outweighs the largest waste of all others.
  const without = most * needs + 1;
  if (!Number.isSafeInteger(without * (needs + 1)))
    throw new RangeError('These wastes are too large to add up exactly.');
  for (let i = 0; i < needs; i++) cost[i * columns + parts + i] = without;
  return { cost, columns };
}

export function assign(waste: readonly (readonly number[])[]): Assignment {
  const needs = waste.length;
  if (needs === 0) return { part: [], missing: 0, waste: 0 };
  const parts = waste[0].length;
  const { cost, columns } = wholeCosts(waste, parts);
  const needPrice = new Float64Array(needs);
  const columnPrice = new Float64Array(columns);
  /** The need that a column serves, -1: none. */
  const servedBy = new Int32Array(columns).fill(-1);
  const best = new Float64Array(columns);
  const cameFrom = new Int32Array(columns);
  const done = new Uint8Array(columns);

  for (let start = 0; start < needs; start++) {
    best.fill(Number.POSITIVE_INFINITY);
    cameFrom.fill(-1);
    done.fill(0);
    let need = start;
    let column = -1;
    let soFar = 0;
    for (;;) {
      let next = -1;
      for (let j = 0; j < columns; j++) {
        if (done[j]) continue;
        const through = soFar + cost[need * columns + j] - needPrice[need] - columnPrice[j];
        if (through < best[j]) {
          best[j] = through;
          cameFrom[j] = column;
        }
        if (next < 0 || best[j] < best[next]) next = j;
      }
      // Every need can go without, so some column is always within reach.
      column = next;
      soFar = best[column];
      done[column] = 1;
      if (servedBy[column] < 0) break;
      need = servedBy[column];
    }
    // Prices of all that was passed on the way, so that the way costs nothing and nothing costs less.
    needPrice[start] += soFar;
    for (let j = 0; j < columns; j++) {
      if (!done[j] || j === column) continue;
      needPrice[servedBy[j]] += soFar - best[j];
      columnPrice[j] -= soFar - best[j];
    }
    // Along the way back everyone moves up by one.
    for (let j = column; j >= 0; j = cameFrom[j]) {
      const before = cameFrom[j];
      servedBy[j] = before < 0 ? start : servedBy[before];
    }
  }

  const part: (number | null)[] = new Array(needs).fill(null);
  let total = 0;
  for (let j = 0; j < parts; j++) {
    const i = servedBy[j];
    if (i < 0) continue;
    part[i] = j;
    total += cost[i * columns + j];
  }
  return { part, missing: part.filter((each) => each === null).length, waste: total / STEPS_PER_UNIT };
}
