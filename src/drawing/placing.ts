/**
 * The one placer of labels, for drawings on paper, the template and the page: a label takes the first of its spots that touches no
 * other label. What spots there are, in which order, and what they lie over is the caller's.
 *
 * Units: one length throughout: mm of the model, mm on paper, or pixels.
 */
import { BoxGrid } from './boxGrid.ts';
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

/** Labels that are placed: what may meet a spot is found in a grid, so that the thousandth label costs what the tenth does. */
export class Placed {
  private readonly grid: BoxGrid<Spot>;

  /** `size`: about how wide a label is. `air`: the most that is asked for. */
  constructor(
    size: number,
    private readonly air = 0,
    spots: Iterable<Spot> = [],
  ) {
    this.grid = new BoxGrid(size);
    for (const spot of spots) this.add(spot);
  }

  get looks(): number {
    return this.grid.looks;
  }

  add(spot: Spot): void {
    this.grid.add(spot, reachOf(spot, 0));
  }

  remove(spot: Spot): void {
    this.grid.remove(spot);
  }

  some(test: (other: Spot) => boolean, near: Spot): boolean {
    return this.grid.some(reachOf(near, this.air), test);
  }
}

/** The box of a label with its leader. */
function reachOf({ box, leader }: Spot, air: number): DrawnBox {
  let { minX, minY, maxX, maxY } = box;
  [minX, minY, maxX, maxY] = [minX - air, minY - air, maxX + air, maxY + air];
  if (!leader) return { minX, minY, maxX, maxY };
  const [x0, y0, x1, y1] = leader;
  return {
    minX: Math.min(minX, x0, x1),
    minY: Math.min(minY, y0, y1),
    maxX: Math.max(maxX, x0, x1),
    maxY: Math.max(maxY, y0, y1),
  };
}

export interface Obstacles {
  /** Labels that are placed. */
  readonly others: Placed | readonly Spot[];
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
  for (let side = 0; side < 4; side++) {
    const along = side < 2 ? x1 - x0 : y1 - y0;
    const p = side % 2 === 0 ? -along : along;
    const q = side === 0 ? x0 - box.minX : side === 1 ? box.maxX - x0 : side === 2 ? y0 - box.minY : box.maxY - y0;
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

const someOf = ({ others }: Obstacles, spot: Spot, test: (other: Spot) => boolean): boolean =>
  others instanceof Placed ? others.some(test, spot) : others.some(test);

function isFree(spot: Spot, obstacles: Obstacles): boolean {
  const { box, leader } = spot;
  const { taken = [], air = 0 } = obstacles;
  for (let k = 0; k < taken.length; k++) {
    const one = taken[k];
    if (meets(box, one, air)) return false;
    if (leader && segmentMeetsBox(...leader, one)) return false;
  }
  return !someOf(
    obstacles,
    spot,
    (other) =>
      meets(box, other.box, air) ||
      (leader ? segmentMeetsBox(...leader, other.box) : false) ||
      (other.leader ? segmentMeetsBox(...other.leader, box) : false),
  );
}

function crossesAnother(spot: Spot, obstacles: Obstacles): boolean {
  const { leader } = spot;
  if (!leader) return false;
  return someOf(obstacles, spot, (other) => (other.leader ? leadersCross(leader, other.leader) : false));
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
