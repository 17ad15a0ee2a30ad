/**
 * The frame, written once. x runs right, y runs up the page (upstage), angles are radians counter-clockwise
 * from +x. Lengths are one unit throughout (mm everywhere in this program).
 */
import { orient2d } from 'robust-predicates';

export const TAU = 2 * Math.PI;

/**
 * Which way the path a -> b -> c turns: > 0 counter-clockwise (left), < 0 clockwise (right), 0 collinear.
 *
 * Exact: the sign. The size is twice the triangle's area, approximately.
 * The library counts y downwards, so its sign is flipped here, and nobody else calls it.
 */
export function turn(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  return -orient2d(ax, ay, bx, by, cx, cy);
}

/** The same angle in [0, 2 pi). */
export function wrapAngle(angle: number): number {
  const wrapped = angle % TAU;
  const positive = wrapped < 0 ? wrapped + TAU : wrapped;
  return positive >= TAU ? 0 : positive;
}

/** A rigid motion: turn by `angle` about the origin, then shift by (dx, dy). */
export interface Motion {
  readonly angle: number;
  readonly dx: number;
  readonly dy: number;
}

/** Where a point goes under a motion. */
export function movePoint(m: Motion, x: number, y: number): [number, number] {
  const c = Math.cos(m.angle);
  const s = Math.sin(m.angle);
  return [m.dx + c * x - s * y, m.dy + s * x + c * y];
}

/** The motion that does `first`, then `second`. */
export function compose(second: Motion, first: Motion): Motion {
  const [dx, dy] = movePoint(second, first.dx, first.dy);
  return { angle: first.angle + second.angle, dx, dy };
}
