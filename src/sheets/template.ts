/**
 * The template: everything that touches the deck, and the pedals, at full size, to be marked through onto a drum rug.
 *
 * Tiled on the paper with 10 mm margins, each page lying 10 mm over its neighbours; or, long, on one page for a plotter. A first page
 * shows how the tiles lie. Pages that would show nothing are left out, so every page says where it belongs, from the centre line and
 * the front edge: islands are laid by tape.
 *
 * Units:  mm in the frame of the marks (checks/marks/datums.ts): u to stage left of the centre line, v upstage of the front edge.
 * Exact:  outlines are those that are measured; arcs stay arcs.
 * Inputs: a layout of this setup. Throws: RangeError when the plan has no such setup.
 */
import { inFrame, type MarkFrame } from '../checks/marks/datums.ts';
import type { FloorMark, MarkPart } from '../checks/marks/floorMarks.ts';
import { type LaidMark, type MarkPlan, markPlan } from '../checks/marks/markPlan.ts';
import type { Mark } from '../drawing/displayList.ts';
import { prepareDeck } from '../geometry/deck.ts';
import { TAU } from '../geometry/frame.ts';
import { outline } from '../geometry/loops.ts';
import { hasArea, type Loop, type Piece } from '../geometry/outline.ts';
import { moved } from '../geometry/shapes.ts';
import { extent } from '../geometry/support.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { type Box, formatOf, framedSheet, MARGIN_MM } from './framed.ts';
import { markName } from './markWords.ts';
import { measureWith, Page } from './page.ts';
import { PAPERS, type Sheet, type SheetOptions } from './sheet.ts';
import { templateMap } from './templateMap.ts';
import { tilePage } from './templateTile.ts';
import { type Tiling, tilesFor } from './tiles.ts';

export interface TemplateOptions extends SheetOptions {
  /** One page as large as the template, for a plotter. */
  readonly long?: boolean;
}

/** What is drawn: one body's outline, in the marks' frame. */
export interface TemplateShape {
  readonly loops: readonly Loop[];
  /** Null for a part that says nothing by itself: a pedal's tower. */
  readonly name: string | null;
  /** Whether it touches the deck; else it is drawn thin. */
  readonly contact: boolean;
}

export interface Template {
  readonly shapes: readonly TemplateShape[];
  readonly marks: readonly { readonly number: number; readonly at: readonly [number, number] }[];
  /** The riser's edge; empty without one. */
  readonly deck: readonly Loop[];
  readonly frame: MarkFrame;
}

const OVERLAP_MM = 10;
/** Round the outlines, so that no line lies at the very edge of a page. */
const ROUND_MM = 15;
/** jsPDF's longest page, 14400 pt. */
const LONGEST_PAGE_MM = 5080;

/** Contacts that are their piece, seen from above. */
const WHOLE_PIECE: readonly MarkPart[] = ['toeCorner', 'heelCorner', 'frontCorner', 'middle', 'contact'];

/** The name of a contact as a whole: a foot, not its end. */
function contactName(marks: readonly FloorMark[]): string {
  const [mark] = marks;
  if (WHOLE_PIECE.includes(mark.part)) return mark.label;
  if (marks.length === 1) return markName(mark);
  return markName({ ...mark, end: null });
}

/** Everything that the template shows. */
export function templateOf(layout: Layout, made: MarkPlan): Template {
  const { frame } = made;
  const [dx, dy] = inFrame(frame, [0, 0]);
  const motion = { angle: -frame.angle, dx, dy };
  const byBody = new Map<string, LaidMark[]>();
  for (const laid of made.marks) {
    const own = byBody.get(laid.mark.body);
    if (own) own.push(laid);
    else byBody.set(laid.mark.body, [laid]);
  }
  const pieces = new Set(made.marks.map(({ mark }) => mark.piece));
  const shapes = layout.bodies.flatMap((body): TemplateShape[] => {
    const marks = byBody.get(body.id);
    const pedal = body.kind === 'pedal' && pieces.has(body.piece);
    if ((!marks && !pedal) || !hasArea(body.shape)) return [];
    const name = marks ? contactName(marks.map(({ mark }) => mark)) : null;
    return [{ loops: outline(moved(body.shape, motion)), name, contact: body.touchesFloor }];
  });
  const marks = made.marks.map(({ number, fromCentreMm, fromFrontMm }) => ({
    number,
    at: [fromCentreMm, fromFrontMm] as const,
  }));
  const deck = layout.deck ? prepareDeck(layout.deck.modules).outline.map((loop) => loopIn(frame, loop)) : [];
  return { shapes, marks, deck, frame };
}

function loopIn(frame: MarkFrame, corners: readonly number[]): Loop {
  const points = corners.flatMap((x, i) => (i % 2 === 0 ? [inFrame(frame, [x, corners[i + 1]])] : []));
  return points.map(([x0, y0], k): Piece => {
    const [x1, y1] = points[(k + 1) % points.length];
    return { kind: 'segment', x0, y0, x1, y1 };
  });
}

/** The tiles on a paper, upright or lying, whichever are fewer; for a plotter as few pages as its longest allows. */
function tilingOf(
  { shapes, marks }: Template,
  within: Box,
  options: TemplateOptions,
): { tiling: Tiling; lying: boolean } {
  // A mark may lie far within its outline, where its page shows nothing else.
  const crosses = marks.map(({ at: [x, y] }): Piece[] => [{ kind: 'arc', cx: x, cy: y, r: 1, start: 0, sweep: TAU }]);
  const all = [...shapes.map(({ loops }) => loops.flat()), ...crosses];
  if (options.long) {
    const most = LONGEST_PAGE_MM - 2 * MARGIN_MM;
    const [w, h] = [Math.min(within.maxX - within.minX, most), Math.min(within.maxY - within.minY, most)];
    return { tiling: tilesFor(all, within, w, h, OVERLAP_MM), lying: false };
  }
  const ways = options.turned ? [options.turned === 'lying'] : [false, true];
  const found = ways.map((lying) => {
    const { frame } = formatOf(options.paper, lying);
    const tiling = tilesFor(all, within, frame.maxX - frame.minX, frame.maxY - frame.minY, OVERLAP_MM);
    return { tiling, lying };
  });
  return found.reduce((best, way) => (way.tiling.tiles.length < best.tiling.tiles.length ? way : best));
}

export function templateSheets(plan: Plan, setupId: string, layout: Layout, options: TemplateOptions): Sheet[] {
  const made = markPlan(plan, setupId, layout);
  const setupName = plan.setups[setupId].name;
  const template = templateOf(layout, made);
  const [dx, dy] = inFrame(made.frame, [0, 0]);
  const used = new Set(made.marks.map(({ mark }) => mark.piece));
  const motion = { angle: -made.frame.angle, dx, dy };
  const drawn = layout.bodies.filter(
    ({ piece, kind, touchesFloor, id }) =>
      used.has(piece) && (touchesFloor || kind === 'pedal' || made.marks.some(({ mark }) => mark.body === id)),
  );
  const box = extent(drawn.map(({ shape }) => moved(shape, motion))) ?? { minX: -100, minY: 0, maxX: 100, maxY: 200 };
  const within = {
    minX: box.minX - ROUND_MM,
    minY: box.minY - ROUND_MM,
    maxX: box.maxX + ROUND_MM,
    maxY: box.maxY + ROUND_MM,
  };
  const { tiling, lying } = tilingOf(template, within, options);
  const { title = plan.name, revision = plan.revision ?? 'A', date, paper } = options;
  const measure = measureWith(options.fonts);
  const said = `${title}, ${setupName}, revision ${revision}, ${date}`;
  const pages = tiling.tiles.map((tile): Sheet => {
    const page = new Page(measure);
    const marks: Mark[] = tilePage({ template, tiling, tile, page, said, units: plan.units, setting: made.frame.from });
    return {
      widthMm: tiling.tileW + 2 * MARGIN_MM,
      heightMm: tiling.tileH + 2 * MARGIN_MM,
      title: `${title} - ${setupName}`,
      subject: `Template 1:1, page ${tile.name}`,
      date,
      marks: [...marks, ...page.marks],
    };
  });
  if (options.long && pages.length === 1) return pages;
  const map = new Page(measure);
  const format = formatOf(paper, lying && !options.long);
  const mapMarks = templateMap({ template, tiling, page: map, room: format.room, long: options.long === true, made });
  const subject = {
    plan,
    setupName,
    documentType: 'Template: map of its pages',
    subject: `Template 1:1 on ${options.long ? 'long pages' : PAPERS[paper].label}, ${pages.length} pages and their map`,
    scale: '1:1',
    number: 1,
    count: pages.length + 1,
  };
  return [framedSheet(map, mapMarks, format, subject, options), ...pages];
}
