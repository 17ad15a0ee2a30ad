/**
 * Two tapes from two fixed points, read to one mark: where their readings cross, and what a wrong reading does to it.
 *
 * Units:  mm, radians.
 * Sign:   a mark lies on side 1 when it is to the left of the line from the first point to the second, on side -1 to its right.
 *
 * Error:  with the tapes' directions at the mark u and v, an angle t apart, a small shift d of the mark changes the readings by
 *         p = u.d and q = v.d. Solved for d, |d|^2 = (p^2 + q^2 - 2 p q cos t) / sin^2 t. Where neither reading is wrong by more
 *         than e, that is convex in (p, q) and so greatest at a corner: p = e, q = -e where cos t > 0, p = q = e where it is
 *         not. Then |d|^2 = 2 e^2 (1 + |cos t|) / sin^2 t, and with the half-angle formulas
 *
 *             |d| = e / min(sin(t / 2), cos(t / 2)).
 *
 *         Least at a right angle: e times the root of 2. It is the first-order term: what is left out is about |d|^2 over the
 *         shorter tape, so tapes shorter than SHORTEST_TAPE_MM are not used.
 */

/** How wrong one reading may be: hooking, slack, a tape not held level, the eye. Common practice, no source. */
export const READING_ERROR_MM = 3;

/** How near to its place a mark must be. Source: two-tape tape-out, 1/4 in (tests/outside/SOURCES.md), to the whole mm below. */
export const TOLERANCE_MM = 6;

/**
 * Tapes that cross at less than 30 degrees, or more than 150, are refused: there a reading error grows 3.9 times, to 12 mm
 * from 3 mm, twice the tolerance, and it grows without bound from there on. (Between 60 and 120 degrees it at most doubles,
 * which is the tolerance exactly.) Our own limit.
 */
export const FLATTEST_RAD = Math.PI / 6;

export const SHORTEST_TAPE_MM = 100;

export type Point = readonly [number, number];

/** The angle between the two tapes at the mark, 0 to pi. */
export function crossingAngle(mark: Point, first: Point, second: Point): number {
  const [ux, uy] = [mark[0] - first[0], mark[1] - first[1]];
  const [vx, vy] = [mark[0] - second[0], mark[1] - second[1]];
  return Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy));
}

/** How far off a mark can be where each of two tapes crossing at `angle` is read up to `readingMm` wrong. */
export function worstError(angle: number, readingMm: number = READING_ERROR_MM): number {
  return readingMm / Math.min(Math.sin(angle / 2), Math.cos(angle / 2));
}

/**
 * Where two tapes cross: the circles of radius r1 about the first point and r2 about the second, on one side of their
 * line. Null where they do not meet. Source: x = (r1^2 - r2^2 + b^2) / 2b along the line, from the two circles' equations.
 */
export function crossingOf(first: Point, second: Point, r1: number, r2: number, side: 1 | -1): Point | null {
  const b = Math.hypot(second[0] - first[0], second[1] - first[1]);
  if (b === 0) return null;
  const along = ((r1 - r2) * (r1 + r2) + b * b) / (2 * b);
  const rise = (r1 - along) * (r1 + along);
  if (rise < 0) return null;
  const off = side * Math.sqrt(rise);
  const [ux, uy] = [(second[0] - first[0]) / b, (second[1] - first[1]) / b];
  return [first[0] + along * ux - off * uy, first[1] + along * uy + off * ux];
}

/** Which side of the line from the first point to the second. */
export function sideOf(mark: Point, first: Point, second: Point): 1 | -1 {
  const turned = (second[0] - first[0]) * (mark[1] - first[1]) - (second[1] - first[1]) * (mark[0] - first[0]);
  return turned >= 0 ? 1 : -1;
}

/**
 * The direction in which a wrong pair of readings moves the mark farthest, as a unit vector: the bisector across the
 * tapes where they are nearly in line, along it where they are nearly side by side.
 */
export function worstDirection(mark: Point, first: Point, second: Point): Point {
  const r1 = Math.hypot(mark[0] - first[0], mark[1] - first[1]);
  const r2 = Math.hypot(mark[0] - second[0], mark[1] - second[1]);
  const [ux, uy] = [(mark[0] - first[0]) / r1, (mark[1] - first[1]) / r1];
  const [vx, vy] = [(mark[0] - second[0]) / r2, (mark[1] - second[1]) / r2];
  // d has equal parts along u and v (p = q) or opposite ones (p = -q): along u + v or u - v.
  const sign = ux * vx + uy * vy > 0 ? -1 : 1;
  const [dx, dy] = [ux + sign * vx, uy + sign * vy];
  const length = Math.hypot(dx, dy);
  return length > 0 ? [dx / length, dy / length] : [-uy, ux];
}
