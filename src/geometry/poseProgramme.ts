/**
 * The highest point of the least of some straight bounds over a box of three sides: what a cell of poses can hold at most.
 *
 * Each bound is v + g1 d1 + g2 d2 + g3 d3 for d in [-1, 1]^3. By duality the highest least is the least, over mixtures l of the bounds
 * (l >= 0, sum 1), of sum l v + sum over j of |sum l g_j|. Every mixture bounds it from above, so the value returned
 * holds even where the steps run out or round: it is worked out anew from the mixture. Steps are those of the simplex method
 * on the mixtures, with four columns at a time.
 */
const MAX_STEPS = 80;
const EPS = 1e-11;

/** What highest() found. */
export interface Highest {
  /** No point of the box has all bounds above this. */
  value: number;
  /** Where the least of the bounds is highest. */
  readonly at: [number, number, number];
  /** How much of the value goes away with the width of each side of the box; the last is either shift's. */
  readonly blame: [number, number, number, number];
}

/** Bounds of one cell, in flat arrays that grow and are used again. */
export class Bounds {
  count = 0;
  /** v, g1, g2, g3 of each, then what of v is slack that shrinks with the turn's and with the shift's width. */
  data = new Float64Array(6 * 256);
  /** What highest() found of these bounds, written over when it is asked again. */
  readonly highest: Highest = { value: 0, at: [0, 0, 0], blame: [0, 0, 0, 0] };

  push(v: number, g1: number, g2: number, g3: number, turnSlack: number, shiftSlack: number): void {
    const at = this.count * 6;
    if (at + 6 > this.data.length) {
      const larger = new Float64Array(this.data.length * 2);
      larger.set(this.data);
      this.data = larger;
    }
    const { data } = this;
    data[at] = v;
    data[at + 1] = g1;
    data[at + 2] = g2;
    data[at + 3] = g3;
    data[at + 4] = turnSlack;
    data[at + 5] = shiftSlack;
    this.count++;
  }
}

// Used from the beginning to the end of one question, in which nothing foreign is called.
/** Rows of the basis' inverse; the first entry of each is its column's share. */
const inverse = new Float64Array(16);
/** The columns in the basis: a bound's number, or -1 .. -3 for +e_j, -4 .. -6 for -e_j. */
const basis = new Int32Array(4);
const costs = new Float64Array(4);
const entering = new Float64Array(4);
const step = new Float64Array(4);
const price = new Float64Array(4);

/** Inputs: at least one bound. */
export function highest({ data, count, highest: result }: Bounds): Highest {
  let first = 0;
  for (let k = 1; k < count; k++) if (data[k * 6] < data[first * 6]) first = k;
  inverse.fill(0);
  inverse[0] = 1;
  basis[0] = first;
  costs[0] = data[first * 6];
  for (let j = 1; j < 4; j++) {
    const g = data[first * 6 + j];
    basis[j] = g >= 0 ? -j : -3 - j;
    // Rows: share of +-e_j is |g_j|, from sum -l g + share = 0.
    inverse[4 * j] = Math.abs(g);
    inverse[4 * j + j] = g >= 0 ? 1 : -1;
    costs[j] = 1;
  }
  for (let steps = 0; steps < MAX_STEPS; steps++) {
    for (let c = 0; c < 4; c++)
      price[c] =
        costs[0] * inverse[c] + costs[1] * inverse[4 + c] + costs[2] * inverse[8 + c] + costs[3] * inverse[12 + c];
    const [t, d1, d2, d3] = price;
    let next = 0;
    let least = -EPS * (1 + Math.abs(t));
    let found = false;
    for (let k = 0, at = 0; k < count; k++, at += 6) {
      const over = data[at] + data[at + 1] * d1 + data[at + 2] * d2 + data[at + 3] * d3 - t;
      if (over >= least) continue;
      least = over;
      next = k;
      found = true;
    }
    for (let j = 1; j < 4; j++) {
      const over = 1 - Math.abs(price[j]);
      if (over >= least || over >= -EPS) continue;
      least = over;
      next = price[j] > 0 ? -j : -3 - j;
      found = true;
    }
    if (!found) break;
    entering.fill(0);
    if (next >= 0) {
      entering[0] = 1;
      for (let j = 1; j < 4; j++) entering[j] = -data[next * 6 + j];
    } else entering[next >= -3 ? -next : -next - 3] = next >= -3 ? 1 : -1;
    let leaving = -1;
    let ratio = Number.POSITIVE_INFINITY;
    for (let i = 0; i < 4; i++) {
      step[i] =
        inverse[4 * i] * entering[0] +
        inverse[4 * i + 1] * entering[1] +
        inverse[4 * i + 2] * entering[2] +
        inverse[4 * i + 3] * entering[3];
      if (step[i] <= EPS) continue;
      const here = Math.max(0, inverse[4 * i]) / step[i];
      if (here >= ratio) continue;
      ratio = here;
      leaving = i;
    }
    if (leaving < 0) break;
    for (let c = 0; c < 4; c++) inverse[4 * leaving + c] /= step[leaving];
    for (let i = 0; i < 4; i++) {
      if (i === leaving) continue;
      for (let c = 0; c < 4; c++) inverse[4 * i + c] -= step[i] * inverse[4 * leaving + c];
    }
    basis[leaving] = next;
    costs[leaving] = next >= 0 ? data[next * 6] : 1;
  }
  let shares = 0;
  for (let i = 0; i < 4; i++) if (basis[i] >= 0) shares += Math.max(0, inverse[4 * i]);
  let value = 0;
  const blame = result.blame;
  blame.fill(0);
  for (let i = 0; i < 4; i++) {
    if (basis[i] < 0) continue;
    const share = Math.max(0, inverse[4 * i]) / shares;
    const at = basis[i] * 6;
    value += share * data[at];
    for (let j = 0; j < 3; j++) blame[j] += share * data[at + 1 + j];
  }
  let turnSlack = 0;
  for (let i = 0; i < 4; i++) {
    if (basis[i] < 0) continue;
    const share = Math.max(0, inverse[4 * i]) / shares;
    turnSlack += share * data[basis[i] * 6 + 4];
    blame[3] += share * data[basis[i] * 6 + 5];
  }
  for (let j = 0; j < 3; j++) {
    blame[j] = Math.abs(blame[j]);
    value += blame[j];
    result.at[j] = Math.max(-1, Math.min(1, price[j + 1]));
  }
  blame[0] += turnSlack;
  result.value = value;
  return result;
}
