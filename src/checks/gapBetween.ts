/** The least gap between two groups of bodies in plan, whatever their heights: for measuring by pointing. */
import { gap } from '../geometry/gap.ts';
import type { Body } from '../layout/body.ts';

export interface Between {
  readonly gap: number;
  /** The two nearest points, x0 y0 x1 y1, mm. */
  readonly line: readonly [number, number, number, number];
  readonly a: Body;
  readonly b: Body;
}

/** Null when one of the groups is empty. */
export function gapBetween(first: readonly Body[], second: readonly Body[]): Between | null {
  let best: Between | null = null;
  for (const a of first)
    for (const b of second) {
      const near = gap(a.shape, b.shape);
      if (best === null || near.gap < best.gap)
        best = { gap: near.gap, line: [near.ax, near.ay, near.bx, near.by], a, b };
    }
  return best;
}
