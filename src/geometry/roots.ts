/** The real roots of a polynomial inside an interval, found between the roots of its derivative; and where any function changes its sign. */

function value(p: readonly number[], x: number): number {
  let y = 0;
  for (let k = p.length - 1; k >= 0; k--) y = y * x + p[k];
  return y;
}

/** Halves [lo, hi], at whose ends p has opposite signs, down to neighbouring numbers. */
function between(p: readonly number[], lo: number, hi: number): number {
  const rising = value(p, lo) < 0;
  for (let k = 0; k < 200; k++) {
    const middle = (lo + hi) / 2;
    if (middle <= lo || middle >= hi) break;
    if (value(p, middle) < 0 === rising) lo = middle;
    else hi = middle;
  }
  return (lo + hi) / 2;
}

/**
 * Roots of p[0] + p[1] x + p[2] x^2 ... in [lo, hi], rising. Between two stops (roots of the derivative) the polynomial
 * runs one way, so a change of sign brackets one root. A double root may be missed or returned; where it is a stop
 * at which the polynomial touches zero it is returned only if the value there is exactly 0.
 */
export function rootsIn(p: readonly number[], lo: number, hi: number): number[] {
  if (p.length <= 1) return [];
  const slope = p.slice(1).map((c, k) => c * (k + 1));
  const stops = [lo, ...rootsIn(slope, lo, hi), hi];
  const roots: number[] = [];
  for (let k = 0; k + 1 < stops.length; k++) {
    const a = value(p, stops[k]);
    const b = value(p, stops[k + 1]);
    if (a === 0) roots.push(stops[k]);
    else if (a < 0 !== b < 0 && b !== 0) roots.push(between(p, stops[k], stops[k + 1]));
  }
  if (value(p, hi) === 0) roots.push(hi);
  return roots;
}

/** Steps towards the place where something changes its sign, and when that is near enough: a part of the stretch. */
const STEPS = 60;
const NEAR = 1e-12;

/** Where f changes its sign between lo and hi, at which it is a and b (regula falsi, the Illinois way). */
export function signChange(f: (u: number) => number, lo: number, hi: number, a: number, b: number): number {
  const near = NEAR * (hi - lo);
  let last = lo;
  let side = 0;
  for (let k = 0; k < STEPS; k++) {
    const u = (lo * b - hi * a) / (b - a);
    if (Math.abs(u - last) <= near) return u;
    last = u;
    const value = f(u);
    if (value < 0 === a < 0) {
      lo = u;
      a = value;
      // An end that stays twice counts half, or it would stay for good.
      if (side === 1) b /= 2;
      side = 1;
    } else {
      hi = u;
      b = value;
      if (side === 2) a /= 2;
      side = 2;
    }
  }
  return last;
}
