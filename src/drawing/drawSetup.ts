/**
 * A whole setup as one display list, in the plan's frame: riser, stage, pieces from low to high, hidden lines, centre line,
 * dimensions, names and numbered findings.
 *
 * Units: mm of the model; `scale` says how many go to one mm of paper, for what belongs to the paper.
 */
import type { Finding } from '../checks/finding.ts';
import { gearOf } from '../gear/catalogue.ts';
import { deckOutline, pointInDeck, prepareDeck } from '../geometry/deck.ts';
import { wrapAngle } from '../geometry/frame.ts';
import type { Core, Swept } from '../geometry/shapes.ts';
import { extent, support } from '../geometry/support.ts';
import type { Layout } from '../layout/layout.ts';
import type { Piece, Plan, Riser, Setup } from '../plan/schema.ts';
import { type DisplayUnit, formatLength, formatNumber } from '../units.ts';
import { deckMarks } from './deck.ts';
import { dimensionMarks, numbersOnTop } from './dimensions.ts';
import {
  boxOfMark,
  boxOfMarks,
  CAPITAL_OF_EM,
  CENTRE,
  type DisplayList,
  type DrawnBox,
  joinBoxes,
  lineMark,
  type Mark,
  style,
  TEXT_MM,
  type TextMark,
  type Tint,
} from './displayList.ts';
import { encloses, isOpaque } from './edges.ts';
import { hiddenLines } from './hidden.ts';
import { InkMap } from './inkMap.ts';
import { type LabelRequest, labelMarks, placeLabels } from './labels.ts';
import { flagRequests, nameRequests } from './names.ts';
import { byHeight, drawPiece } from './pieces.ts';
import { estimateText, type MeasureText } from './textWidth.ts';

export interface DrawOptions {
  /** Model mm in one mm of paper: 20 at 1:20. */
  readonly scale: number;
  /** 'kit' leaves out other things on the stage that stand beside the kit and its riser. */
  readonly view?: 'stage' | 'kit';
  /** 'stage' names other things on the stage one by one, and the kit as a whole. */
  readonly names?: 'all' | 'stage' | 'none';
  /** 'riser' leaves out the kit's own. */
  readonly dimensions?: 'all' | 'riser' | 'none';
  /** Numbered flags at what is tight, blocked or unmeasured. */
  readonly flags?: boolean;
  readonly hidden?: boolean;
  readonly measure?: MeasureText;
  /** Where names may stand, mm of the model: a page's free room. Left out: a margin round the drawing. */
  readonly namesWithin?: DrawnBox;
}

/** On paper, mm: from the drawing to its dimensions, from row to row of them, and room for names where no page says. */
const ROOM_MM = 2;
const DIMENSION_ROW_MM = 6.5;
const NAMES_MM = 14;
const CENTRE_BEYOND_MM = 5;

/** A text's box, for keeping things apart: upright texts and texts turned by quarter turns. */
export function textBox(mark: TextMark, scale: number, measure: MeasureText): DrawnBox {
  const w = measure(mark.text, mark.sizeMm, mark.bold) * scale;
  const start = mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? -w / 2 : -w;
  const c = Math.cos(mark.rotation);
  const s = Math.sin(mark.rotation);
  const low = -0.24 * mark.sizeMm * scale;
  const high = CAPITAL_OF_EM * mark.sizeMm * scale;
  const corners = [
    [start, low],
    [start + w, low],
    [start, high],
    [start + w, high],
  ].map(([u, v]) => [mark.x + c * u - s * v, mark.y + s * u + c * v]);
  return {
    minX: Math.min(...corners.map(([x]) => x)),
    minY: Math.min(...corners.map(([, y]) => y)),
    maxX: Math.max(...corners.map(([x]) => x)),
    maxY: Math.max(...corners.map(([, y]) => y)),
  };
}

const grown = (box: DrawnBox, by: number): DrawnBox => ({
  minX: box.minX - by,
  minY: box.minY - by,
  maxX: box.maxX + by,
  maxY: box.maxY + by,
});

/** The deck's box, or null without one. */
export function deckBox(layout: Layout): DrawnBox | null {
  return layout.deck ? extent(prepareDeck(layout.deck.modules).modules) : null;
}

/** The box of the kit: every body but other things on the stage. Null for an empty setup. */
export function kitBox(layout: Layout): DrawnBox | null {
  return extent(layout.bodies.filter((body) => body.kind !== 'stageItem').map((body) => body.shape));
}

/** A dimension's number: whole millimetres without their unit, which the sheet states once (draw.dims), or feet and inches. */
export function dimensionText(mm: number, unit: DisplayUnit): string {
  return unit === 'mm' ? formatNumber(mm, 0) : formatLength(mm, unit);
}

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
      return pick(core.points.flatMap((x, i) => (i % 2 === 0 ? [[x, core.points[i + 1]] as [number, number]] : [])));
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

/** Rows of dimensions below and to the left: the kit's, then the riser's. Extension lines start at what is measured. */
export function allDimensions(
  plan: Plan,
  layout: Layout,
  which: 'all' | 'riser',
  around: DrawnBox,
  scale: number,
  measure: MeasureText,
): Mark[] {
  const deck = layout.deck ? prepareDeck(layout.deck.modules).modules : [];
  const kit = layout.bodies.filter((body) => body.kind !== 'stageItem').map((body) => body.shape);
  const rows: (readonly Measured[])[] = [];
  if (kit.length > 0 && (which === 'all' || deck.length === 0)) rows.push([measuredOf(kit, 'Kit')]);
  if (deck.length > 0) {
    const steps = stepsOf(layout.deck!.modules);
    if (steps.length > 0) rows.push(steps);
    rows.push([measuredOf(deck, 'Riser')]);
  }
  const marks = rows.flatMap((row, k) => {
    const out = (k + 1) * DIMENSION_ROW_MM * scale;
    return row.flatMap(({ title, wide, deep }) => {
      const own: Mark[] = [];
      const one = (name: string, [from, to]: Pair, alongRad: number, lineAt: number, lengthMm: number) => {
        const text = dimensionText(lengthMm, plan.units);
        const named = `${title}: ${name} ${text}`;
        own.push(...dimensionMarks({ from, to, alongRad, lineAt, text, title: named, scale, measure }));
      };
      if (wide) one('width', wide, 0, around.minY - out, wide[1][0] - wide[0][0]);
      // The normal of a measure along +y points to -x.
      if (deep) one('depth', deep, Math.PI / 2, -(around.minX - out), deep[1][1] - deep[0][1]);
      return own;
    });
  });
  return numbersOnTop(marks, scale, measure);
}

type Point = readonly [number, number];
type Pair = readonly [Point, Point];

/** What one dimension of a row measures: a width between two points, a depth, or both. */
interface Measured {
  readonly title: string;
  readonly wide: Pair | null;
  readonly deep: Pair | null;
}

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
  const corners = deckOutline(modules).flatMap((loop) =>
    loop.flatMap((x, i): Point[] => (i % 2 === 0 ? [[x, loop[i + 1]]] : [])),
  );
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

/** x of the centre line: the riser's middle; without a riser the plan's own 0. */
export function centreLineX(layout: Layout): number {
  const deck = deckBox(layout);
  return deck ? (deck.minX + deck.maxX) / 2 : 0;
}

/** Pieces that are other things on the stage, not of the kit. */
function isStageItem(plan: Plan, piece: Piece): boolean {
  return piece.kind === 'item' && gearOf(plan.gear, piece.gear)?.kind === 'stageItem';
}

/** Whether a setup has things on the stage that stand beside the kit and its riser. */
export function hasStageBeside(plan: Plan, setup: Setup, layout: Layout): boolean {
  return idsInView(plan, setup, layout, 'kit').length < setup.order.length;
}

function idsInView(plan: Plan, setup: Setup, layout: Layout, view: 'stage' | 'kit'): string[] {
  const ids = setup.order.filter((id) => setup.pieces[id] !== undefined);
  const boxes = [kitBox(layout), deckBox(layout)].filter((box) => box !== null);
  if (view === 'stage' || boxes.length === 0) return ids;
  const box = boxes.reduce(joinBoxes);
  return ids.filter((id) => {
    const { xMm: x, yMm: y } = setup.pieces[id].place;
    const beside = x < box.minX || x > box.maxX || y < box.minY || y > box.maxY;
    return !(beside && isStageItem(plan, setup.pieces[id]));
  });
}

/** The kit as one thing with one name, where pieces are too small to be named. */
function kitRequest(layout: Layout, riser: Riser | undefined, plan: Plan): LabelRequest[] {
  const box = deckBox(layout) ?? kitBox(layout);
  if (!box) return [];
  const text = riser ? `Drum kit on riser, ${formatLength(riser.heightMm, plan.units)} high` : 'Drum kit';
  return [
    {
      id: 'kit',
      text,
      sizeMm: TEXT_MM.small,
      bold: true,
      form: 'name',
      ink: 'ink',
      x: (box.minX + box.maxX) / 2,
      y: (box.minY + box.maxY) / 2,
      reachMm: Math.min(box.maxX - box.minX, box.maxY - box.minY) / 2,
      inside: null,
      pieceId: null,
      backing: null,
    },
  ];
}

/** Names keep off the riser's edge and dimension lines; covering a bit of a hidden line costs little. */
function inkWeight({ layer, line }: Mark): number {
  if (layer === 'deck') return 4;
  if (layer === 'dimensions') return 2.5;
  return line?.kind === 'dashed' ? 0.3 : 1;
}

/**
 * The drawing of a setup. `findings` are those that runChecks gave (only flags need them). The box holds all of it,
 * names too.
 * Throws: RangeError when the plan has no such setup.
 */
export function drawSetup(
  plan: Plan,
  setupId: string,
  layout: Layout,
  { findings }: { readonly findings: readonly Finding[] },
  options: DrawOptions,
): DisplayList {
  const setup = Object.hasOwn(plan.setups, setupId) ? plan.setups[setupId] : undefined;
  if (!setup) throw new RangeError(`The plan has no setup "${setupId}".`);
  const { scale, view = 'stage', names = 'all', dimensions = 'all', flags = false, hidden = true } = options;
  const measure = options.measure ?? estimateText;
  const riser = setup.riser === null ? undefined : plan.risers[setup.riser];
  const ids = idsInView(plan, setup, layout, view);
  const deck = layout.deck ? deckMarks(layout.deck.modules, scale, riser?.name || 'Riser') : [];
  const pieces = byHeight(ids.flatMap((id) => drawPiece(plan, setup, id, layout)));
  const marks: Mark[] = [...deck, ...pieces];
  if (hidden) marks.push(...hiddenLines(pieces));

  const model = boxOfMarks(marks);
  const centre = centreLineX(layout);
  const deckOnly = deckBox(layout) ?? model;
  const centreLine = lineMark(
    style('centre', { line: CENTRE, title: 'Centre line', zMm: 1e4 }),
    centre,
    deckOnly.minY - CENTRE_BEYOND_MM * scale,
    centre,
    deckOnly.maxY + CENTRE_BEYOND_MM * scale,
  );
  marks.push(centreLine);

  const around = grown(model, ROOM_MM * scale);
  const dimensionList = dimensions === 'none' ? [] : allDimensions(plan, layout, dimensions, around, scale, measure);
  marks.push(...dimensionList);
  const box = marks.reduce(
    (all, mark) => joinBoxes(all, mark.kind === 'text' ? textBox(mark, scale, measure) : boxOfMark(mark)),
    around,
  );

  const tints = new Map(
    pieces.flatMap((mark) =>
      mark.pieceId && isOpaque(mark) && mark.tint !== 'solid' ? [[mark.pieceId, mark.tint!]] : [],
    ),
  );
  const named = names === 'all' ? ids : ids.filter((id) => isStageItem(plan, setup.pieces[id]));
  const requests = [
    ...(flags ? flagRequests(findings) : []),
    ...(names === 'stage' ? kitRequest(layout, riser, plan) : []),
    ...(names === 'none' ? [] : nameRequests(plan, setup, layout, named, tints)),
  ];
  if (requests.length === 0) return { marks, box };
  const bounds = options.namesWithin ?? grown(box, NAMES_MM * scale);
  const ink = new InkMap(bounds, scale);
  for (const mark of marks) ink.add(mark, inkWeight(mark));
  const taken = dimensionList.flatMap((mark) => (mark.kind === 'text' ? [textBox(mark, scale, measure)] : []));
  const ready = layout.deck ? prepareDeck(layout.deck.modules) : null;
  const groundAt = (x: number, y: number): Tint => (ready && pointInDeck(ready, x, y) ? 'deck' : 'paper');
  const field = { bounds, taken, ink, scale, measure, groundAt, topPiece: topPieceOf(pieces) };
  const places = placeLabels(requests, field);
  for (const place of places) marks.push(...labelMarks(place, field));
  return { marks, box: places.reduce((all, place) => joinBoxes(all, place.box), box) };
}

/** Which piece is in sight at a place; cymbals, which let things show through, count where nothing opaque is above them. */
function topPieceOf(pieces: readonly Mark[]): (x: number, y: number) => string | null {
  const filled = pieces.filter((mark) => mark.tint !== null && mark.tint !== 'solid').reverse();
  const boxes = filled.map(boxOfMark);
  return (x, y) => {
    const found = filled.find((mark, i) => {
      const { minX, minY, maxX, maxY } = boxes[i];
      return x >= minX && x <= maxX && y >= minY && y <= maxY && encloses(mark, x, y);
    });
    return found?.pieceId ?? null;
  };
}
