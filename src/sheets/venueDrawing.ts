/** One drawing of a venue sheet in its place on a page: the display list at its scale, the words round it, its scale bar. */
import type { Checked } from '../checks/run.ts';
import { arrowhead } from '../drawing/dimensions.ts';
import { type Mark, placed, TEXT_MM, WIDE } from '../drawing/displayList.ts';
import { type DrawOptions, drawSetup } from '../drawing/drawSetup.ts';
import { centreLineX } from '../drawing/extents.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { stageOf } from '../plan/stages.ts';
import type { Box } from './framed.ts';
import type { Page } from './page.ts';
import { scaleBar } from './scaleBar.ts';
import { sideWords } from './sideWords.ts';
import { BOTTOM_STRIP_MM, CAPTION_MM, type Cell, PAD_MM, TOP_STRIP_MM } from './venueFit.ts';

/** From this reduction on, hidden lines and pieces' names are smaller than anybody reads. */
export const COARSE_SCALE = 50;

export interface Drawable {
  readonly plan: Plan;
  readonly setupId: string;
  readonly setup: Setup;
  readonly layout: Layout;
  readonly checked: Checked;
  readonly flags: boolean;
  /** Numbers of the input list, by what takes them. */
  readonly channels: ReadonlyMap<string, string>;
}

/** How a view is drawn at a scale: a stage too small for the kit's own names has the kit as one thing. */
export function drawOptions(
  { view, scale, dimensions }: Pick<Cell, 'view' | 'scale' | 'dimensions'>,
  { flags, channels }: Drawable,
  page: Pick<Page, 'measure'>,
): DrawOptions & { readonly coarse: boolean } {
  const coarse = view === 'stage' && scale >= COARSE_SCALE;
  return {
    coarse,
    scale,
    view,
    channels,
    measure: page.measure,
    flags: flags && !coarse,
    names: coarse ? 'stage' : 'all',
    dimensions: coarse ? 'riser' : dimensions,
    hidden: scale < COARSE_SCALE,
  };
}

/** Words and arrows for the sides of the stage. Stage left is the performer's left facing the audience: the page's right. */
function stageWords(page: Page, { minX, minY, maxX, maxY }: Box, centreX: number): number {
  sideWords(page, minX + PAD_MM, maxX - PAD_MM, maxY - PAD_MM - TEXT_MM.small * 0.72, centreX);
  const word = page.measure('AUDIENCE', TEXT_MM.normal, true) / 2 + 3;
  const reach = word + PAD_MM + 1;
  const middle = Math.min(maxX - reach, Math.max(minX + reach, centreX));
  const y = minY + PAD_MM;
  page.text('AUDIENCE', middle, y + 2, { bold: true, anchor: 'middle', sizeMm: TEXT_MM.normal });
  for (const side of [-1, 1]) {
    const x = middle + side * word;
    page.line(x, y + 6, x, y + 1.5, { line: WIDE });
    page.marks.push(arrowhead(x, y, -Math.PI / 2, 1));
  }
  return middle;
}

/** Room of a scale bar's numbers beyond its ends. */
const BAR_NUMBER_MM = 5;

/** The bar on the side of the word for the audience that has more room. */
function barBeside(page: Page, { minX, minY, maxX }: Box, middle: number, scale: number, units: Plan['units']): void {
  const word = page.measure('AUDIENCE', TEXT_MM.normal, true) / 2 + 6;
  const left = middle - word - (minX + PAD_MM + 1);
  const right = maxX - PAD_MM - 1 - (middle + word);
  const room = Math.max(left, right) - BAR_NUMBER_MM;
  const x = left >= right ? minX + PAD_MM + 1 : middle + word + 1;
  scaleBar(page, x, minY + PAD_MM, scale, units, room);
}

/** Draws a cell; returns how many names found no place. */
export function drawCell(page: Page, marks: Mark[], cell: Cell, drawable: Drawable): number {
  const { plan, setupId, setup, layout, checked } = drawable;
  const { scale, view, captioned } = cell;
  const { coarse, ...drawn } = drawOptions(cell, drawable, page);
  const area = captioned ? { ...cell.drawing, maxY: cell.drawing.maxY - CAPTION_MM } : cell.drawing;
  // The drawing without names is centred; names then have all that is free of the place.
  const bare = { ...drawn, names: 'none', flags: false, hidden: false } as const;
  const { box } = drawSetup(plan, setupId, layout, checked, bare);
  const [lowY, highY] = [area.minY + BOTTOM_STRIP_MM + PAD_MM, area.maxY - TOP_STRIP_MM - PAD_MM];
  const dx = (area.minX + area.maxX) / 2 - (box.minX + box.maxX) / 2 / scale;
  const dy = (lowY + highY) / 2 - (box.minY + box.maxY) / 2 / scale;
  const namesWithin = {
    minX: (area.minX + PAD_MM - dx) * scale,
    maxX: (area.maxX - PAD_MM - dx) * scale,
    minY: (lowY - dy) * scale,
    maxY: (highY - dy) * scale,
  };
  const list = drawSetup(plan, setupId, layout, checked, { ...drawn, namesWithin });
  marks.push(...list.marks.map((mark) => placed(mark, { factor: 1 / scale, dx, dy })));
  const middle = stageWords(page, area, centreLineX(layout, stageOf(plan, setup)) / scale + dx);
  barBeside(page, area, middle, scale, plan.units);
  if (captioned) {
    const name = view === 'kit' ? 'The kit' : stageOf(plan, setup)?.name || 'The stage';
    const base = cell.drawing.maxY - PAD_MM - TEXT_MM.normal * 0.72;
    page.fitted(`${name}, 1:${scale}`, area.minX + PAD_MM, base, area.maxX - area.minX - 2 * PAD_MM, {
      bold: true,
      sizeMm: TEXT_MM.normal,
    });
  }
  return list.unnamed;
}
