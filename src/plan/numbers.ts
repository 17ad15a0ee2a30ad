/**
 * Numbers that the program works out and writes into a plan.
 *
 * They are rounded, so that a plan reads well and so that the last digit of a sine on one machine is not another
 * file on the next. The steps lie far below what a tape shows, and far below what adds up to anything: a degree's
 * 1e-9 moves the end of a 10 m arm by 2e-7 mm.
 */

const MM_STEP = 1e6;
const DEGREE_STEP = 1e9;

/** A length rounded to 1e-6 mm, never -0. */
export function tidyMm(mm: number): number {
  return Math.round(mm * MM_STEP) / MM_STEP + 0;
}

/** The same heading in (-180, 180], rounded to 1e-9 degrees, never -0. */
export function tidyDeg(degrees: number): number {
  const rounded = Math.round((degrees % 360) * DEGREE_STEP) / DEGREE_STEP;
  if (rounded > 180) return tidyDeg(rounded - 360);
  if (rounded <= -180) return tidyDeg(rounded + 360);
  return rounded + 0;
}
