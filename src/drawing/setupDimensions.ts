/**
 * The dimensions of a whole drawing: the kit's, the riser's, the stage's, and where the riser stands on the stage. They lie
 * in rows round what they measure: widths in one direction, depths in the other.
 *
 * Units: mm of the model; `scale` says how many go to one mm of paper.
 */

import { pointsOf, sumOf } from '../gather.ts';
import { deckOutline, prepareDeck } from '../geometry/deck.ts';
import { wrapAngle } from '../geometry/frame.ts';
import type { Core, Swept } from '../geometry/shapes.ts';
import { support } from '../geometry/support.ts';
import { isKit } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan, Stage } from '../plan/schema.ts';
import { stageBox, stageFrontY } from '../plan/stages.ts';
import type { DisplayUnit } from '../units.ts';
import { tapeLength } from '../words/markWords.ts';
import { dimensionMarks, numbersOnTop } from './dimensions.ts';
import { boxOfMark, type DrawnBox, type Mark } from './displayList.ts';
import { deckBox, grown, kitBox } from './extents.ts';
import { meets } from './placing.ts';
import { type MeasureText, textBox } from './textWidth.ts';

/** On paper, mm: from row to row. */
const DIMENSION_ROW_MM = 6.5;

/** The point of some shapes that lies farthest along (ux, uy). */
function farthestPoint(shapes: readonly Swept[], ux: number, uy: number): [number, number] {
  const far = shapes.reduce((best, shape) => (support(shape, ux, uy) > support(best, ux, uy) ? shape : best));
  const [x, y] = farthestOfCore(far.core, ux, uy);
  return [x + far.radius * ux, y + far.radius * uy];
}

function farthestOfCore(core: Core, ux: number, uy: number): [number, number] {
  const pick = (points: readonly [number, number][]) =>
    points.reduce((best, p) => (p[0] * ux + p[1] * uy > best[0] * ux + best[1] * uy ? p : best));
  switch (core.kind) {
    case 'point':
      return [core.x, core.y];
    case 'segment':
      return pick([
        [core.x0, core.y0],
        [core.x1, core.y1],
      ]);
    case 'polygon':
      return pick(pointsOf(core.points));
    case 'arc': {
      const at = (angle: number): [number, number] => [
        core.cx + core.r * Math.cos(angle),
        core.cy + core.r * Math.sin(angle),
      ];
      const towards = Math.atan2(uy, ux);
      const ends = [at(core.start), at(core.start + core.sweep)];
      return pick(wrapAngle(towards - core.start) <= core.sweep ? [...ends, at(towards)] : ends);
    }
  }
}

type Point = readonly [number, number];
type Pair = readonly [Point, Point];

/** What one dimension of a row measures: a width between two points, a depth, or both. */
interface Measured {
  readonly title: string;
  readonly wide: Pair | null;
  readonly deep: Pair | null;
}

type Row = readonly Measured[];

function measuredOf(shapes: readonly Swept[], title: string): Measured {
  return {
    title,
    wide: [farthestPoint(shapes, -1, 0), farthestPoint(shapes, 1, 0)],
    deep: [farthestPoint(shapes, 0, -1), farthestPoint(shapes, 0, 1)],
  };
}

/** Steps nearer than this are one place: far below what anybody lays out, far above rounding. */
const SAME_MM = 0.5;

/** Where a deck's outline has corners between its ends (an L, a T): the widths and depths from corner to corner. */
function stepsOf(modules: readonly (readonly number[])[]): Measured[] {
  const corners = deckOutline(modules).flatMap(pointsOf);
  /** For each coordinate along an axis the corner nearest the side where the dimensions are. */
  const stops = (axis: 0 | 1): Point[] => {
    const kept: Point[] = [];
    for (const p of [...corners].sort((a, b) => a[axis] - b[axis] || a[1 - axis] - b[1 - axis]))
      if (kept.length === 0 || p[axis] - kept[kept.length - 1][axis] > SAME_MM) kept.push(p);
    return kept;
  };
  const pairs = (points: readonly Point[]): Pair[] =>
    points.length > 2 ? points.slice(1).map((p, k): Pair => [points[k], p]) : [];
  return [
    ...pairs(stops(0)).map((wide) => ({ title: 'Riser', wide, deep: null })),
    ...pairs(stops(1)).map((deep) => ({ title: 'Riser', wide: null, deep })),
  ];
}

/** Where the riser, or the kit without one, stands on a stage: its middle to the centre line, its front to the stage's. */
export interface StagePlace {
  readonly what: 'Riser' | 'Kit';
  readonly middleX: number;
  readonly frontY: number;
  /** To the left of the middle as seen on the page is below 0: stage right. */
  readonly offCentreMm: number;
  /** Below 0 it stands over the stage's front edge; null beside the stage. */
  readonly toFrontMm: number | null;
}

/** Null where there is nothing to place. */
export function placeOnStage(layout: Layout, stage: Stage): StagePlace | null {
  const deck = deckBox(layout);
  const box = deck ?? kitBox(layout);
  if (!box) return null;
  const middleX = (box.minX + box.maxX) / 2;
  const edge = stageFrontY(stage, middleX);
  return {
    what: deck ? 'Riser' : 'Kit',
    middleX,
    frontY: box.minY,
    offCentreMm: middleX - stage.centreXMm,
    toFrontMm: edge === null ? null : box.minY - edge,
  };
}

/** In the riser's own rows: its distance to the stage's front beside its depth, its distance to the centre line below its width. */
function placeRows(layout: Layout, stage: Stage): { readonly beside: Row; readonly below: Row } {
  const place = placeOnStage(layout, stage);
  const box = deckBox(layout) ?? kitBox(layout);
  if (!place || !box) return { beside: [], below: [] };
  const { what, middleX, frontY, offCentreMm, toFrontMm } = place;
  const beside: Measured[] = [];
  if (toFrontMm !== null && Math.abs(toFrontMm) > SAME_MM) {
    const edgeY = frontY - toFrontMm;
    // Beside the riser where the stage's front is as far there, as it is where it runs straight.
    const atSide = stageFrontY(stage, box.minX);
    const x = atSide !== null && Math.abs(atSide - edgeY) < SAME_MM ? box.minX : middleX;
    beside.push({
      title: `${what} to stage edge`,
      wide: null,
      deep: [
        [x, edgeY],
        [box.minX, frontY],
      ],
    });
  }
  const below: Measured[] = [];
  if (Math.abs(offCentreMm) > SAME_MM)
    below.push({
      title: `${what}, middle to centre line`,
      wide: [
        [middleX, frontY],
        [stage.centreXMm, frontY],
      ],
      deep: null,
    });
  return { beside, below };
}

/** Which sides of what they measure the rows lie on. */
interface Sides {
  readonly x: -1 | 1;
  readonly y: -1 | 1;
}

interface Laying {
  readonly units: DisplayUnit;
  readonly scale: number;
  readonly measure: MeasureText;
}

/** Rows about a box, the first nearest. Extension lines start at what is measured. */
function layRows(rows: readonly Row[], around: DrawnBox, sides: Sides, { units, scale, measure }: Laying): Mark[] {
  return rows.flatMap((row, k) => {
    const out = (k + 1) * DIMENSION_ROW_MM * scale;
    const wideAt = sides.y < 0 ? around.minY - out : around.maxY + out;
    // The normal of a measure along +y points to -x.
    const deepAt = sides.x < 0 ? -(around.minX - out) : -(around.maxX + out);
    return row.flatMap(({ title, wide, deep }) => {
      const one = (name: string, [from, to]: Pair, alongRad: number, lineAt: number, lengthMm: number) => {
        // Whole millimetres without their unit, which the sheet states once (ISO 129-1), or feet and inches.
        const text = tapeLength(Math.abs(lengthMm), units);
        const named = `${title}: ${name} ${text}`;
        return dimensionMarks({ from, to, alongRad, lineAt, text, title: named, scale, measure });
      };
      return [
        ...(wide ? one('width', wide, 0, wideAt, wide[1][0] - wide[0][0]) : []),
        ...(deep ? one('depth', deep, Math.PI / 2, deepAt, deep[1][1] - deep[0][1]) : []),
      ];
    });
  });
}

/** The kit's rows, where asked for or where there is no riser, then the riser's. */
function kitRows(layout: Layout, which: 'all' | 'riser', stage: Stage | undefined): Row[] {
  const deck = layout.deck ? prepareDeck(layout.deck.modules).modules : [];
  const kit = layout.bodies.filter(isKit).map((body) => body.shape);
  const placed = stage ? placeRows(layout, stage) : { beside: [], below: [] };
  const rows: Row[] = [];
  if (kit.length > 0 && (which === 'all' || deck.length === 0)) rows.push([measuredOf(kit, 'Kit')]);
  if (deck.length > 0) {
    const steps = stepsOf(layout.deck!.modules);
    if (steps.length > 0) rows.push(steps);
    rows.push([measuredOf(deck, 'Riser')]);
  }
  // Depths one after the other are a chain in one row, as a tape is laid.
  if (rows.length > 0) rows[rows.length - 1] = [...rows[rows.length - 1], ...placed.beside];
  return placed.below.length > 0 ? [...rows, placed.below] : rows;
}

/** Rows of dimensions below and to the left of a box: the kit's, then the riser's, and where it stands on the stage. */
export function allDimensions(
  plan: Plan,
  layout: Layout,
  which: 'all' | 'riser',
  around: DrawnBox,
  scale: number,
  measure: MeasureText,
  stage?: Stage,
): Mark[] {
  const laying = { units: plan.units, scale, measure };
  return numbersOnTop(layRows(kitRows(layout, which, stage), around, { x: -1, y: -1 }, laying), scale, measure);
}

/** What a number on something else costs, against a line on it. */
const NUMBER_COST = 5;

/**
 * On a stage: its own size outside of everything (`around`), and within it the riser's size and place, on the sides where
 * they meet the fewest other things.
 */
export function stageDimensions(
  plan: Plan,
  layout: Layout,
  stage: Stage,
  {
    around,
    others,
    airMm,
    scale,
    measure,
  }: {
    readonly around: DrawnBox;
    /** Boxes of things beside the riser. */
    readonly others: readonly DrawnBox[];
    /** From the riser to the first row, mm of paper less a row. */
    readonly airMm: number;
    readonly scale: number;
    readonly measure: MeasureText;
  },
): Mark[] {
  const laying = { units: plan.units, scale, measure };
  const box = stageBox(stage);
  const corners = (ax: number, ay: number, bx: number, by: number): Pair => [
    [ax, ay],
    [bx, by],
  ];
  const size: Measured = {
    title: 'Stage',
    wide: corners(box.minX, box.minY, box.maxX, box.minY),
    deep: corners(box.minX, box.minY, box.minX, box.maxY),
  };
  const outer = layRows([[size]], around, { x: -1, y: -1 }, laying);
  const inner = deckBox(layout) ?? kitBox(layout);
  if (!inner) return numbersOnTop(outer, scale, measure);
  const rows = kitRows(layout, 'riser', stage);
  const cost = (marks: readonly Mark[]) =>
    sumOf(marks, (mark) => {
      if (mark.kind === 'path' && mark.tint === 'solid') return 0;
      const own = mark.kind === 'text' ? textBox(mark, scale, measure) : grown(boxOfMark(mark), 1);
      const met = others.filter((other) => meets(own, other)).length;
      return met * (mark.kind === 'text' ? NUMBER_COST : 1);
    });
  const ways = ([-1, 1] as const).flatMap((y) => ([-1, 1] as const).map((x): Sides => ({ x, y })));
  const tries = ways.map((sides) => layRows(rows, grown(inner, airMm * scale), sides, laying));
  const costs = tries.map(cost);
  return numbersOnTop([...outer, ...tries[costs.indexOf(Math.min(...costs))]], scale, measure);
}
