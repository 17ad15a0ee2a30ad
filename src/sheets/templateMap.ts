/** The template's first page: how its pages lie, which are left out, and how to print and lay them. */
import type { MarkPlan } from '../checks/marks/markPlan.ts';
import {
  boxMark,
  boxOfMarks,
  CAPITAL_OF_EM,
  CENTRE,
  HIDDEN,
  type Line,
  lineMark,
  type Mark,
  placed,
  type Style,
  style,
  TEXT_MM,
  THIN,
  textMark,
  WIDE,
} from '../drawing/displayList.ts';
import type { Loop } from '../geometry/outline.ts';
import type { Box } from './framed.ts';
import type { Page } from './page.ts';
import { sideWords } from './sideWords.ts';
import type { Template } from './templateShapes.ts';
import { chainsOf } from './templateTile.ts';
import { clipPieces, type Tiling } from './tiles.ts';

const PAD_MM = 3;
const AUDIENCE_MM = 9;

interface Request {
  readonly template: Template;
  readonly tiling: Tiling;
  readonly page: Page;
  readonly room: Box;
  readonly long: boolean;
  readonly made: MarkPlan;
}

function instructions({ tiling, long, made }: Request): string[] {
  const { tiles, columns, rows } = tiling;
  const gone = columns * rows - tiles.length;
  const from = {
    riser: "the riser's front edge",
    stage: "the stage's front edge",
    baseLine: 'the base line A-B of the mark sheet',
  };
  return [
    `1  Print ${long ? 'every strip' : `pages ${tiles.map(({ name }) => name).join(', ')}`} at 100 %, never "fit to page". On each page measure both check bars: 100 mm, or 3 15/16" within 1/64". A page that misses by more than half a mm is not to be used.`,
    `2  Trim the stage right and the audience edge of each page to its frame and lay it on its neighbours: its edges on their dashed lines, a pin through both register crosses. Tape from beneath.`,
    `3  The crosses at two corners say how far they lie from the centre line and from ${from[made.frame.from]}. Lay pages without a neighbour by these, and check every joined block by one of them. Then mark through each numbered cross; the numbers are those of the mark sheet.`,
    ...(gone > 0
      ? [`${gone} of ${columns * rows} places in the grid have nothing on them and are left out; they are dashed here.`]
      : []),
    'Spurs, tips of legs and bases are drawn at typical sizes: measure your own. Paper on a floor slips: take it up before anyone walks or plays there.',
  ];
}

export function templateMap(request: Request): Mark[] {
  const { template, tiling, page, room } = request;
  const [minX, maxX] = [room.minX + PAD_MM, room.maxX - PAD_MM];
  let y = room.maxY - PAD_MM - TEXT_MM.normal;
  page.text('Template at full size', minX, y, { bold: true, sizeMm: TEXT_MM.normal });
  y -= TEXT_MM.normal * 1.3;
  for (const text of instructions(request)) y = page.paragraph(text, minX, y, maxX - minX) - 0.6;

  const area = { minX, maxX, minY: room.minY + PAD_MM + AUDIENCE_MM, maxY: y };
  const cells = cellsOf(tiling);
  const s = (line: Line, faint = false) => style('feet', { line, ink: faint ? 'faint' : 'ink' });
  const path = (loops: readonly Loop[], own: Style): Mark[] =>
    loops.length === 0 ? [] : [{ ...own, kind: 'path', chains: loops.flatMap((loop) => chainsOf(loop)) }];
  const grid = cells.map(({ name, box: b }) =>
    boxMark({ ...s(name ? THIN : HIDDEN, name === null), tint: name ? 'band' : null }, b.minX, b.minY, b.maxX, b.maxY),
  );
  // Pages lie over each other: their tints first, so that none hides an edge.
  const model: Mark[] = [
    ...grid.map((mark): Mark => ({ ...mark, line: null })),
    ...grid.map((mark): Mark => ({ ...mark, tint: null })),
    ...path(template.deck, s(WIDE, true)),
    ...template.shapes.flatMap(({ loops }) => path(loops, s(WIDE))),
  ];
  const whole = boxOfMarks(model);
  // A front edge far from the kit would make the pages small; the pages say how far it is.
  const edgeNear = whole.minY <= 0 || whole.minY < (whole.maxY - whole.minY) / 4;
  model.push(lineMark(s(CENTRE), 0, edgeNear ? Math.min(whole.minY, 0) : whole.minY, 0, whole.maxY));
  if (edgeNear) model.push(lineMark(s(CENTRE), whole.minX, 0, whole.maxX, 0));
  const all = boxOfMarks(model);
  const factor = Math.min(
    (area.maxX - area.minX) / (all.maxX - all.minX),
    (area.maxY - area.minY) / (all.maxY - all.minY),
  );
  const dx = (area.minX + area.maxX) / 2 - (factor * (all.minX + all.maxX)) / 2;
  const dy = (area.minY + area.maxY) / 2 - (factor * (all.minY + all.maxY)) / 2;
  const marks = model.map((mark) => placed(mark, { factor, dx, dy }));
  const size = Math.min(TEXT_MM.normal * 1.3, (tiling.tileW * factor) / 3.4);
  const drawn = template.shapes.flatMap(({ loops }) => loops.flat());
  for (const { name, box: b } of cells) {
    if (name === null) continue;
    // In the corner of its page where the fewest lines run, all in mm of the floor.
    const [w, h, air] = [page.measure(name, size, true), size * CAPITAL_OF_EM, 1.2].map((mm) => mm / factor);
    const spots = [
      [b.minX + air, b.maxY - air - h],
      [b.maxX - air - w, b.maxY - air - h],
      [b.minX + air, b.minY + air],
      [b.maxX - air - w, b.minY + air],
    ].map(([x, v]) => ({ x, v, lines: clipPieces(drawn, { minX: x, maxX: x + w, minY: v, maxY: v + h }).length }));
    const { x, v } = spots.reduce((best, spot) => (spot.lines < best.lines ? spot : best));
    marks.push(textMark(style('names', { zMm: 1e5 }), name, x * factor + dx, v * factor + dy, size, { bold: true }));
  }
  const words = room.minY + PAD_MM + 2;
  page.text('AUDIENCE', Math.min(Math.max(dx, minX + 60), maxX - 60), words, {
    bold: true,
    anchor: 'middle',
    sizeMm: TEXT_MM.normal,
  });
  sideWords(page, minX, maxX, words, null);
  return marks;
}

/** All places of the grid, with the names of those that have a page. */
function cellsOf({ columns, rows, tiles, tileW, tileH, overlapMm, box }: Tiling): { name: string | null; box: Box }[] {
  const names = new Map(tiles.map(({ column, row, name }) => [row * columns + column, name]));
  return Array.from({ length: columns * rows }, (_, k) => {
    const minX = box.minX + (k % columns) * (tileW - overlapMm);
    const minY = box.minY + Math.floor(k / columns) * (tileH - overlapMm);
    return { name: names.get(k) ?? null, box: { minX, minY, maxX: minX + tileW, maxY: minY + tileH } };
  });
}
