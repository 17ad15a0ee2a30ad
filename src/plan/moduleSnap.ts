/**
 * Where a module of a riser lies flush with those beside it, near to where a hand has put it.
 *
 * Edges that would touch are drawn together, and so are edges that would lie in line with those of a module that is touched: a corner
 * meets a corner by both. Across and along are asked by themselves, and the nearest wins. Modules at an angle to one another, other than
 * quarter turns, have no edge to share.
 *
 * Units: mm; degrees.
 */
import { toRadians } from '../units.ts';
import { tidyDeg, tidyMm } from './numbers.ts';
import type { Riser } from './schema.ts';

type Module = Riser['modules'][number];

export interface FlushModule {
  readonly xMm: number;
  readonly yMm: number;
  /** What it shares with others then: x0 y0 x1 y1, from one end of the shared edge to the other. */
  readonly seams: readonly (readonly [number, number, number, number])[];
}

/** Facings that differ by less are alike: rounding of what was typed or turned. */
const SAME_DEG = 1e-3;
/** Edges nearer than this are one. */
const SAME_MM = 1e-3;

/** Another module in the moved one's own frame: its middle from the moved one's, and half its sizes. */
interface Beside {
  readonly at: readonly [number, number];
  readonly half: readonly [number, number];
}

/** Null: at an angle. */
function beside(moved: Module, other: Module, c: number, s: number): Beside | null {
  const turn = tidyDeg(other.headingDeg - moved.headingDeg);
  const quarters = Math.round(turn / 90);
  if (Math.abs(turn - 90 * quarters) > SAME_DEG) return null;
  const [dx, dy] = [other.xMm - moved.xMm, other.yMm - moved.yMm];
  const half = [other.widthMm / 2, other.depthMm / 2] as const;
  return { at: [c * dx + s * dy, c * dy - s * dx], half: quarters % 2 === 0 ? half : [half[1], half[0]] };
}

/** The air between two on one axis when the moved one has gone by `by`; below 0 they overlap there. */
const air = ({ at, half }: Beside, own: readonly number[], by: readonly number[], axis: 0 | 1): number =>
  Math.abs(at[axis] - by[axis]) - half[axis] - own[axis];

/** `moved` as the hand has it; `withinMm`: how far it may be drawn along either way. */
export function flushModule(moved: Module, others: readonly Module[], withinMm: number): FlushModule {
  const angle = toRadians(moved.headingDeg);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const own = [moved.widthMm / 2, moved.depthMm / 2] as const;
  const near = others
    .flatMap((other) => beside(moved, other, c, s) ?? [])
    .filter((one) => air(one, own, [0, 0], 0) <= withinMm && air(one, own, [0, 0], 1) <= withinMm);
  const by: [number, number] = [0, 0];
  const draw = (axis: 0 | 1, offered: (one: Beside) => readonly number[]) => {
    const shifts = near.flatMap(offered).filter((shift) => Math.abs(shift) <= withinMm);
    if (shifts.length > 0) by[axis] = shifts.reduce((best, one) => (Math.abs(one) < Math.abs(best) ? one : best));
    return shifts.length > 0;
  };
  const touching = ({ at, half }: Beside, axis: 0 | 1) => {
    const apart = half[axis] + own[axis];
    return [at[axis] - apart, at[axis] + apart];
  };
  const touches = [draw(0, (one) => touching(one, 0)), draw(1, (one) => touching(one, 1))];
  // In line with a module that it touches by now, where nothing is touched that way.
  for (const axis of [0, 1] as const)
    if (!touches[axis])
      draw(axis, (one) => {
        if (Math.abs(air(one, own, by, axis === 0 ? 1 : 0)) > SAME_MM) return [];
        const [at, spare] = [one.at[axis], one.half[axis] - own[axis]];
        return [at - spare, at + spare];
      });
  const [x, y] = [moved.xMm + c * by[0] - s * by[1], moved.yMm + s * by[0] + c * by[1]];
  const seams = near.flatMap((one) =>
    ([0, 1] as const).flatMap((axis) => {
      const along = axis === 0 ? 1 : 0;
      if (Math.abs(air(one, own, by, axis)) > SAME_MM || air(one, own, by, along) >= -SAME_MM) return [];
      const mid = one.at[along] - by[along];
      const from = Math.max(-own[along], mid - one.half[along]);
      const to = Math.min(own[along], mid + one.half[along]);
      const edge = Math.sign(one.at[axis] - by[axis]) * own[axis];
      const point = (t: number): readonly [number, number] => {
        const [u, v] = axis === 0 ? [edge, t] : [t, edge];
        return [x + c * u - s * v, y + s * u + c * v];
      };
      return [[...point(from), ...point(to)] as const];
    }),
  );
  return { xMm: tidyMm(x), yMm: tidyMm(y), seams };
}
