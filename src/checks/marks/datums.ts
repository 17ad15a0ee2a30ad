/**
 * What marks are measured from: the centre line and the front edge, and the points that tapes are hooked to.
 *
 * With a riser: its front edge, its middle, the corners of its outline. Without one, on a stage: the stage's front edge, its
 * centre line, its two front corners. Without either: a base line that is laid first, by two marks.
 *
 * Units: mm and radians, in the plan's frame. An outline's edges are those of its hull: a tape is hooked to an outer corner,
 *        and a front edge with a bay in it is the line along its two front corners.
 */

import { pointsOf } from '../../gather.ts';
import { prepareDeck } from '../../geometry/deck.ts';
import { turn, wrapAngle } from '../../geometry/frame.ts';
import type { Layout } from '../../layout/layout.ts';
import type { Plan, Setup } from '../../plan/schema.ts';
import { type DisplayUnit, MM_PER_IN } from '../../units.ts';
import { crossingAngle, FLATTEST_RAD, type Point, TOLERANCE_MM, worstError } from './crossing.ts';

/** Where the coordinates count from: `origin` is where the centre line meets the front edge, `angle` how far it is turned. */
export interface MarkFrame {
  readonly from: 'riser' | 'stage' | 'baseLine';
  readonly origin: Point;
  readonly angle: number;
}

export interface Datum {
  readonly letter: string;
  readonly at: Point;
}

export interface Datums {
  readonly frame: MarkFrame;
  /** Counter-clockwise as seen on the page, beginning at the front edge's stage right end. */
  readonly points: readonly Datum[];
}

/** A place of the plan as the crew measures it: to stage left of the centre line (stage right below 0), upstage of the front edge. */
export function inFrame({ origin, angle }: MarkFrame, [x, y]: Point): Point {
  const [dx, dy] = [x - origin[0], y - origin[1]];
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [c * dx + s * dy, -s * dx + c * dy];
}

/** And back. */
export function outOfFrame({ origin, angle }: MarkFrame, [u, v]: Point): Point {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [origin[0] + c * u - s * v, origin[1] + s * u + c * v];
}

/** Corners of the convex hull, counter-clockwise, none in a straight line with its neighbours. */
function hullCorners(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: readonly Point[]): Point[] => {
    const chain: Point[] = [];
    for (const p of list) {
      while (chain.length > 1 && turn(...chain[chain.length - 2], ...chain[chain.length - 1], ...p) <= 0) chain.pop();
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

/** Corners nearer than this to the line of their neighbours are no corners that anybody could hook a tape to. */
const CORNER_MM = 5;

function sharpCorners(hull: readonly Point[]): Point[] {
  return hull.filter((p, i) => {
    const a = hull[(i + hull.length - 1) % hull.length];
    const b = hull[(i + 1) % hull.length];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    return Math.abs((p[0] - a[0]) * (b[1] - a[1]) - (p[1] - a[1]) * (b[0] - a[0])) > CORNER_MM * length;
  });
}

/** Which side of a hull faces the audience most squarely; the longer of two that do so alike. */
function frontSide(hull: readonly Point[]): number {
  const turned = hull.map((p, i) => {
    const q = hull[(i + 1) % hull.length];
    const off = wrapAngle(Math.atan2(q[1] - p[1], q[0] - p[0]) + Math.PI) - Math.PI;
    return { i, off: Math.abs(off), length: Math.hypot(q[0] - p[0], q[1] - p[1]) };
  });
  return turned.reduce((best, side) =>
    side.off < best.off - 1e-9 || (Math.abs(side.off - best.off) <= 1e-9 && side.length > best.length) ? side : best,
  ).i;
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';
const lettered = (points: readonly Point[]): Datum[] =>
  points.slice(0, LETTERS.length).map((at, k) => ({ letter: LETTERS[k], at }));

/** The datums of an outline; null where it has no corners to speak of. `centreX` null: the middle of its front. */
function ofOutline(
  points: readonly Point[],
  centreX: number | null,
): (Pick<MarkFrame, 'origin' | 'angle'> & { corners: Point[] }) | null {
  const hull = sharpCorners(hullCorners(points));
  if (hull.length < 3) return null;
  const front = frontSide(hull);
  const corners = [...hull.slice(front), ...hull.slice(0, front)];
  const [a, b] = corners;
  // A hair's turn is rounding: then the plan's own axes are the frame's.
  const turned = Math.atan2(b[1] - a[1], b[0] - a[0]);
  const angle = Math.abs(turned) < 1e-9 ? 0 : turned;
  const flat = { from: 'riser', origin: a, angle } as const;
  if (centreX === null) {
    const us = corners.map((p) => inFrame(flat, p)[0]);
    return { origin: outOfFrame(flat, [(Math.min(...us) + Math.max(...us)) / 2, 0]), angle, corners };
  }
  return { origin: [centreX, a[1] + (centreX - a[0]) * Math.tan(angle)], angle, corners };
}

/** A base line's length and its distance downstage of the kit, in steps that are easy to lay. */
const BASE = {
  mm: { lengths: [2000, 3000, 4000, 5000, 6000], gaps: [300, 500, 800, 1200], step: 100 },
  in: {
    lengths: [6, 8, 10, 12, 16, 20].map((ft) => ft * 12 * MM_PER_IN),
    gaps: [12, 24, 36, 48].map((i) => i * MM_PER_IN),
    step: 6 * MM_PER_IN,
  },
} as const;

/** What a metre between the kit and its base line may gain, mm of the worst mark's error, and a metre of its length. Our own. */
const METRE_GAINS_MM = { gap: 1, length: 0.25 };

/** The base line downstage of the marks: near and short, as long as the worst mark does not suffer for it. */
function baseLine(marks: readonly Point[], centreX: number, units: DisplayUnit): Datums {
  const { lengths, gaps, step } = BASE[units];
  const front = Math.min(...marks.map(([, y]) => y), marks.length > 0 ? Number.POSITIVE_INFINITY : 0);
  let best: { cost: number; half: number; y: number } | null = null;
  for (const gap of gaps)
    for (const length of lengths) {
      const y = Math.floor((front - gap) / step) * step;
      const half = length / 2;
      // Angles that are refused count as half the flattest one, so that fewer and less flat ones still win.
      const errors = marks.map((mark) => {
        const angle = crossingAngle(mark, [centreX - half, y], [centreX + half, y]);
        return worstError(Math.min(Math.max(angle, FLATTEST_RAD / 2), Math.PI - FLATTEST_RAD / 2));
      });
      const size = (gap * METRE_GAINS_MM.gap + length * METRE_GAINS_MM.length) / 1000;
      const cost = Math.max(TOLERANCE_MM, ...errors) + size;
      if (best === null || cost < best.cost) best = { cost, half, y };
    }
  const { half, y } = best ?? { half: lengths[0] / 2, y: 0 };
  return {
    frame: { from: 'baseLine', origin: [centreX, y], angle: 0 },
    points: lettered([
      [centreX - half, y],
      [centreX + half, y],
    ]),
  };
}

/** The datums of a setup. `marks`: the places to be marked, for a base line where there is neither riser nor stage. */
export function datumsOf(plan: Plan, setup: Setup, layout: Layout, marks: readonly Point[]): Datums {
  if (layout.deck && layout.deck.modules.length > 0) {
    const found = ofOutline(prepareDeck(layout.deck.modules).outline.flatMap(pointsOf), null);
    if (found)
      return { frame: { from: 'riser', origin: found.origin, angle: found.angle }, points: lettered(found.corners) };
  }
  const stages = plan.stages ?? {};
  const stage = setup.stage != null && Object.hasOwn(stages, setup.stage) ? stages[setup.stage] : null;
  if (stage) {
    const found = ofOutline(
      stage.outline.map(({ xMm, yMm }): Point => [xMm, yMm]),
      stage.centreXMm,
    );
    // What is upstage on a stage hangs with cloths and cables: tapes are hooked to its front alone.
    if (found)
      return {
        frame: { from: 'stage', origin: found.origin, angle: found.angle },
        points: lettered(found.corners.slice(0, 2)),
      };
  }
  return baseLine(marks, 0, plan.units);
}
