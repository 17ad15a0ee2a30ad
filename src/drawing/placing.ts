/**
 * The one placer of labels, for drawings on paper, the template and the page: a label takes the first of its spots that touches no
 * other label. What spots there are, in which order, and what they lie over is the caller's.
 *
 * Units: one length throughout: mm of the model, mm on paper, or pixels.
 */
import type { DrawnBox } from './displayList.ts';

/** From a label to what it speaks of. */
export type Leader = readonly [x0: number, y0: number, x1: number, y1: number];

/** A place that a label may take. */
export interface Spot {
  readonly box: DrawnBox;
  readonly leader?: Leader | null;
}

export interface Wanted<S extends Spot> {
  /** The best first; later ones are worked out only where they are needed. */
  readonly spots: Iterable<S>;
  /** Whether a spot lies over what a label should keep off. Left out: none does. */
  readonly isOver?: (spot: S) => boolean;
  /** 'never': rather no label than one over such a thing, or with a leader across another. Left out: where nothing else is free. */
  readonly over?: 'never';
}

export interface Obstacles {
  /** Labels that are placed. */
  readonly others: readonly Spot[];
  /** Boxes that no label may touch, and no leader cross. */
  readonly taken?: readonly DrawnBox[];
  /** Between labels, and round what is taken. */
  readonly air?: number;
}

export const meets = (a: DrawnBox, b: DrawnBox, air = 0): boolean =>
  a.minX < b.maxX + air && b.minX < a.maxX + air && a.minY < b.maxY + air && b.minY < a.maxY + air;

export const within = (a: DrawnBox, b: DrawnBox): boolean =>
  a.minX >= b.minX && a.maxX <= b.maxX && a.minY >= b.minY && a.maxY <= b.maxY;

export const boxAt = (x: number, y: number, w: number, h: number): DrawnBox => ({
  minX: x - w / 2,
  minY: y - h / 2,
  maxX: x + w / 2,
  maxY: y + h / 2,
});

/** Whether a segment passes through a box (Liang and Barsky's clipping). */
export function segmentMeetsBox(x0: number, y0: number, x1: number, y1: number, box: DrawnBox): boolean {
  let enter = 0;
  let leave = 1;
  for (const [p, q] of [
    [x0 - x1, x0 - box.minX],
    [x1 - x0, box.maxX - x0],
    [y0 - y1, y0 - box.minY],
    [y1 - y0, box.maxY - y0],
  ]) {
    if (p === 0) {
      if (q < 0) return false;
      continue;
    }
    const t = q / p;
    if (p < 0) enter = Math.max(enter, t);
    else leave = Math.min(leave, t);
  }
  return enter <= leave;
}

/** Whether two leaders cross. */
function leadersCross([ax, ay, bx, by]: Leader, [cx, cy, dx, dy]: Leader): boolean {
  const side = (px: number, py: number, qx: number, qy: number, x: number, y: number) =>
    Math.sign((qx - px) * (y - py) - (qy - py) * (x - px));
  return (
    side(ax, ay, bx, by, cx, cy) !== side(ax, ay, bx, by, dx, dy) &&
    side(cx, cy, dx, dy, ax, ay) !== side(cx, cy, dx, dy, bx, by)
  );
}

function isFree({ box, leader }: Spot, { others, taken = [], air = 0 }: Obstacles): boolean {
  for (let k = 0; k < taken.length; k++) {
    const one = taken[k];
    if (meets(box, one, air)) return false;
    if (leader && segmentMeetsBox(...leader, one)) return false;
  }
  for (let k = 0; k < others.length; k++) {
    const other = others[k];
    if (meets(box, other.box, air)) return false;
    if (leader && segmentMeetsBox(...leader, other.box)) return false;
    if (other.leader && segmentMeetsBox(...other.leader, box)) return false;
  }
  return true;
}

function crossesAnother({ leader }: Spot, { others }: Obstacles): boolean {
  if (!leader) return false;
  return others.some((other) => other.leader && leadersCross(leader, other.leader));
}

/**
 * The first free spot that lies over nothing and whose leader crosses none; else the first free one, where the label may be over
 * things; else undefined.
 */
export function firstFree<S extends Spot>(
  { spots, isOver = () => false, over }: Wanted<S>,
  obstacles: Obstacles,
): S | undefined {
  let second: S | undefined;
  for (const spot of spots) {
    if (!isFree(spot, obstacles)) continue;
    if (!crossesAnother(spot, obstacles) && !isOver(spot)) return spot;
    second ??= spot;
  }
  return over === 'never' ? undefined : second;
}

/** Middles of boxes of w by h on the four sides of another: beyond its y and before it, beyond its x and before it. */
export function besideBox(
  { minX, minY, maxX, maxY }: DrawnBox,
  w: number,
  h: number,
  gapX: number,
  gapY: number,
): (readonly [x: number, y: number])[] {
  const [x, y] = [(minX + maxX) / 2, (minY + maxY) / 2];
  const [farX, farY] = [(maxX - minX) / 2 + w / 2 + gapX, (maxY - minY) / 2 + h / 2 + gapY];
  return [
    [x, y + farY],
    [x, y - farY],
    [x + farX, y],
    [x - farX, y],
  ];
}
