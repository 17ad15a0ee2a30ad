/** A deck's sides as poseBounds.ts asks them: how far each line stays off the deck past its ends, and which corners point inward. */

export interface Side {
  readonly x: number;
  readonly y: number;
  readonly ux: number;
  readonly uy: number;
  readonly length: number;
  /** The height of its end. */
  readonly y1: number;
  /** The stretch of its line, from its start on, that is off the deck or on its edge. */
  readonly from: number;
  readonly to: number;
  /** The whole deck is on one side of it. */
  readonly hull: boolean;
}

/** How far past its end a side's line stays off the deck, or on its edge. */
function runsOn(sides: Float64Array, x: number, y: number, ux: number, uy: number, own: number): number {
  let least = Number.POSITIVE_INFINITY;
  const near = 1e-6;
  for (let k = 0; k < sides.length; k += 4) {
    if (k === own) continue;
    const ax = sides[k] - x;
    const ay = sides[k + 1] - y;
    const bx = sides[k + 2] - x;
    const by = sides[k + 3] - y;
    const [sa, sb] = [ax * uy - ay * ux, bx * uy - by * ux];
    const [ta, tb] = [ax * ux + ay * uy, bx * ux + by * uy];
    if (Math.max(sa, sb) < -near || Math.min(sa, sb) > near) continue;
    if (Math.max(ta, tb) < -near) continue;
    if (Math.abs(sa - sb) <= 2 * near) {
      // It runs along the line.
      least = Math.min(least, Math.max(0, Math.min(ta, tb)));
      continue;
    }
    const t = ta + (tb - ta) * Math.max(0, Math.min(1, sa / (sa - sb)));
    if (t >= -near) least = Math.min(least, Math.max(0, t));
  }
  return least;
}

/** How far past one end a side's line stays off the deck, where the corner there points outward. */
function past(sides: Float64Array, x: number, y: number, ux: number, uy: number, own: number, next: number): number {
  const others = sides.slice();
  // The two sides that meet here are no obstacle.
  for (const k of [own, next]) others.set([x - 2 * ux, y - 2 * uy, x - ux, y - uy], k);
  return runsOn(others, x, y, ux, uy, own);
}

/** A deck's sides, four numbers each, the deck on the left; and its inward corners x, y. */
export function lineUp(sides: Float64Array): { sides: Side[]; inward: number[] } {
  const found: Side[] = [];
  const inward: number[] = [];
  for (let k = 0; k < sides.length; k += 4) {
    const [x, y, x1, y1] = sides.subarray(k, k + 4);
    const length = Math.hypot(x1 - x, y1 - y);
    const [ux, uy] = [(x1 - x) / length, (y1 - y) / length];
    let hull = true;
    let [from, to] = [0, length];
    let [before, after] = [-1, -1];
    for (let m = 0; m < sides.length; m += 4) {
      if ((sides[m] - x) * uy - (sides[m + 1] - y) * ux > 1e-9) hull = false;
      // Where loops touch at a corner, the next side of the same loop.
      if (sides[m] === x1 && sides[m + 1] === y1 && (after < 0 || m === k + 4)) after = m;
      if (sides[m + 2] === x && sides[m + 3] === y && (before < 0 || m === k - 4)) before = m;
    }
    const bends = (m: number, n: number) => {
      const [ax, ay] = [sides[m + 2] - sides[m], sides[m + 3] - sides[m + 1]];
      const [bx, by] = [sides[n + 2] - sides[n], sides[n + 3] - sides[n + 1]];
      return ax * by - ay * bx;
    };
    if (after >= 0 && bends(k, after) < 0) inward.push(x1, y1);
    // The neighbour at an outward corner leaves the line there at once.
    if (after >= 0 && bends(k, after) > 0) to += past(sides, x1, y1, ux, uy, k, after);
    if (before >= 0 && bends(before, k) > 0) from -= past(sides, x, y, -ux, -uy, k, before);
    if (hull) [from, to] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    found.push({ x, y, ux, uy, length, y1, from, to, hull });
  }
  return { sides: found, inward };
}
