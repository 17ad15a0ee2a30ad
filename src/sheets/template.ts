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
import { inFrame } from '../checks/marks/datums.ts';
import { markPlan } from '../checks/marks/markPlan.ts';
import type { Mark } from '../drawing/displayList.ts';
import { grown } from '../drawing/extents.ts';
import { TAU } from '../geometry/frame.ts';
import type { Piece } from '../geometry/outline.ts';
import { moved } from '../geometry/shapes.ts';
import { extent } from '../geometry/support.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { type Box, formatOf, framedSheet, MARGIN_MM } from './framed.ts';
import { measureWith, Page } from './page.ts';
import { PAPERS, type Sheet, type SheetOptions } from './sheet.ts';
import { templateMap } from './templateMap.ts';
import { type Template, templateOf } from './templateShapes.ts';
import { tilePage } from './templateTile.ts';
import { type Tiling, tilesFor } from './tiles.ts';

export interface TemplateOptions extends SheetOptions {
  /** One page as large as the template, for a plotter. */
  readonly long?: boolean;
}

const OVERLAP_MM = 10;
/** Round the outlines, so that no line lies at the very edge of a page. */
const ROUND_MM = 15;
/** jsPDF's longest page, 14400 pt. */
const LONGEST_PAGE_MM = 5080;

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
  const { tiling, lying } = tilingOf(template, grown(box, ROUND_MM), options);
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
