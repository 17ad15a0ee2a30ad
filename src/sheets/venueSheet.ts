/**
 * The venue sheet: the kit on its riser on one page, to the largest scale of ISO 5455 that fits, with what a stage crew
 * asks first. Upright or lying paper and the place of the key follow from the fit.
 *
 * Inputs: everything that is not in the plan (date, revision) comes from outside, so the same call gives the same sheet.
 */
import type { Checked } from '../checks/run.ts';
import { arrowhead } from '../drawing/dimensions.ts';
import { type DisplayList, type Mark, placed, TEXT_MM, WIDE } from '../drawing/displayList.ts';
import { type DrawOptions, drawSetup, hasStageBeside } from '../drawing/drawSetup.ts';
import { centreLineX } from '../drawing/extents.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { type Box, type Format, formatOf, framedSheet, type SheetSubject } from './framed.ts';
import { inputList } from './inputList.ts';
import { inputPage } from './inputPage.ts';
import { type KeyContent, type KeyParts, keyBlock, keyHeight } from './keyBlock.ts';
import { measureWith, Page } from './page.ts';
import { SCALES, scaleBar } from './scaleBar.ts';
import { PAPERS, type Sheet, type SheetOptions } from './sheet.ts';

export interface VenueSheetOptions extends SheetOptions {
  /** Numbered flags at what is tight, blocked or unmeasured, for the crew's own use. */
  readonly flags?: boolean;
}

/** On paper, mm. */
/** Beside a drawing: a column that holds figures, and one for a caution alone. */
const COLUMN_MM = 56;
const NARROW_COLUMN_MM = 38;
const PAD_MM = 3;
/** Above and below the drawing: the words for the sides of the stage; the audience and the scale bar. */
const TOP_STRIP_MM = 4.5;
const BOTTOM_STRIP_MM = 9;

interface Arrangement extends Format {
  readonly drawing: Box;
  readonly key: Box;
}

/** The ways to share a page: upright or lying, the key in a column beside the drawing or beneath it. */
function arrangements(
  { paper, turned }: SheetOptions,
  columns: readonly number[],
  keyOf: (widthMm: number) => number,
): Arrangement[] {
  const lyings = turned ? [turned === 'lying'] : [false, true];
  return lyings.flatMap((lying) => {
    const format = formatOf(paper, lying);
    const { room } = format;
    const ways: Arrangement[] = [];
    for (const column of columns) {
      const split = room.maxX - column;
      if (keyOf(column) > room.maxY - room.minY) continue;
      ways.push({ ...format, drawing: { ...room, maxX: split }, key: { ...room, minX: split } });
    }
    const top = room.minY + keyOf(room.maxX - room.minX);
    ways.push({ ...format, drawing: { ...room, minY: top }, key: { ...room, maxY: top } });
    return ways;
  });
}

/** How much of the drawing area's width and height a list takes at a scale; above 1 it does not fit. */
function fill({ drawing }: Arrangement, { box }: DisplayList, scale: number): { x: number; y: number } {
  const roomX = drawing.maxX - drawing.minX - 2 * PAD_MM;
  const roomY = drawing.maxY - drawing.minY - TOP_STRIP_MM - BOTTOM_STRIP_MM - 2 * PAD_MM;
  return { x: (box.maxX - box.minX) / scale / roomX, y: (box.maxY - box.minY) / scale / roomY };
}

/** Words and arrows for the sides of the stage. Stage left is the performer's left facing the audience: the page's right. */
function stageWords(page: Page, area: Box, centreX: number): void {
  const top = area.maxY - PAD_MM - TEXT_MM.small * 0.72;
  page.text('STAGE RIGHT', area.minX + PAD_MM, top, { faint: true });
  page.text('STAGE LEFT', area.maxX - PAD_MM, top, { faint: true, anchor: 'end' });
  page.text('UPSTAGE', centreX, top, { faint: true, anchor: 'middle' });
  const y = area.minY + PAD_MM;
  page.text('AUDIENCE', centreX, y + 2, { bold: true, anchor: 'middle', sizeMm: TEXT_MM.normal });
  const half = page.measure('AUDIENCE', TEXT_MM.normal, true) / 2 + 3;
  for (const side of [-1, 1]) {
    const x = centreX + side * half;
    page.line(x, y + 6, x, y + 1.5, { line: WIDE });
    page.marks.push(arrowhead(x, y, -Math.PI / 2, 1));
  }
}

/** From this reduction on, hidden lines and pieces' names are smaller than anybody reads. */
const COARSE_SCALE = 50;

type View = 'stage' | 'kit';

interface Fit {
  readonly way: Arrangement;
  readonly scale: number;
  /** What the key beside or beneath the drawing holds. */
  readonly parts: KeyParts;
}

/** The largest scale that fits and the arrangement that it fills best; null when none fits. */
function bestFit(ways: readonly Arrangement[], parts: KeyParts, draw: (scale: number) => DisplayList): Fit | null {
  for (const scale of SCALES) {
    const list = draw(scale);
    let best: (Fit & { readonly score: number }) | null = null;
    for (const way of ways) {
      const { x, y } = fill(way, list, scale);
      const score = Math.min(x, y) + x * y;
      if (x <= 1 && y <= 1 && score > (best?.score ?? 0)) best = { way, scale, parts, score };
    }
    if (best) return best;
  }
  return null;
}

type PageOf = Pick<SheetSubject, 'documentType' | 'subject' | 'scale' | 'number' | 'count'>;

/**
 * The sheets of a setup: one page with all. Where other things on the stage would make the kit too small to read, one for
 * the stage, one for the kit, one for figures and inputs; where only the input list would cost a scale, a page for it.
 * Throws: RangeError when the plan has no such setup, or when no scale fits the paper.
 */
export function venueSheets(
  plan: Plan,
  setupId: string,
  layout: Layout,
  checked: Checked,
  options: VenueSheetOptions,
): Sheet[] {
  const setup = Object.hasOwn(plan.setups, setupId) ? plan.setups[setupId] : undefined;
  if (!setup) throw new RangeError(`The plan has no setup "${setupId}".`);
  const { paper, fonts, flags = false } = options;
  const measure = measureWith(fonts);
  const contentOf = (parts: KeyParts): KeyContent => ({ plan, setup, layout, checked, ...parts });

  const fitOf = (view: View, dimensions: 'all' | 'riser', parts: KeyParts): Fit => {
    const columns = parts.withFigures ? [COLUMN_MM] : [COLUMN_MM, NARROW_COLUMN_MM];
    const ways = arrangements(options, columns, (widthMm) => keyHeight(new Page(measure), contentOf(parts), widthMm));
    const fit = bestFit(ways, parts, (scale) =>
      drawSetup(plan, setupId, layout, checked, { scale, view, dimensions, names: 'none', hidden: false, measure }),
    );
    if (!fit) throw new RangeError('This setup is too large for any scale on this paper.');
    return fit;
  };

  const finished = (page: Page, marks: readonly Mark[], format: Format, of: PageOf): Sheet =>
    framedSheet(page, marks, format, { plan, setupName: setup.name, ...of }, options);

  const drawingSheet = (view: View, { way, scale, parts }: Fit, coarse: boolean, of: PageOf): Sheet => {
    const page = new Page(measure);
    const { drawing, frame } = way;
    const drawn: DrawOptions = {
      scale,
      view,
      measure,
      flags: flags && !coarse,
      dimensions: coarse ? 'riser' : 'all',
      hidden: scale < COARSE_SCALE,
    };
    // The drawing without names is centred; names then have all that is free of the page.
    const { box } = drawSetup(plan, setupId, layout, checked, { ...drawn, names: 'none', flags: false, hidden: false });
    const [lowY, highY] = [drawing.minY + BOTTOM_STRIP_MM + PAD_MM, drawing.maxY - TOP_STRIP_MM - PAD_MM];
    const dx = (drawing.minX + drawing.maxX) / 2 - (box.minX + box.maxX) / 2 / scale;
    const dy = (lowY + highY) / 2 - (box.minY + box.maxY) / 2 / scale;
    const namesWithin = {
      minX: (drawing.minX + PAD_MM - dx) * scale,
      maxX: (drawing.maxX - PAD_MM - dx) * scale,
      minY: (lowY - dy) * scale,
      maxY: (highY - dy) * scale,
    };
    const list = drawSetup(plan, setupId, layout, checked, { ...drawn, names: coarse ? 'stage' : 'all', namesWithin });
    const marks: Mark[] = list.marks.map((mark) => placed(mark, { factor: 1 / scale, dx, dy }));
    stageWords(page, drawing, centreLineX(layout) / scale + dx);
    scaleBar(page, drawing.minX + PAD_MM + 1, drawing.minY + PAD_MM, scale, plan.units);
    keyBlock(page, contentOf(parts), way.key, way.key.minX > frame.minX);
    return finished(page, marks, way, of);
  };

  /** What the drawings have no room for: on several pages the figures and the key, and the input list. */
  const detailsPage = (withFigures: boolean, of: PageOf): Sheet => {
    const page = new Page(measure);
    const format = formatOf(paper, false);
    const { frame, room } = format;
    const content = contentOf({ withFigures, withInputs: false });
    const keyMm = withFigures ? keyHeight(page, content, frame.maxX - frame.minX) : 0;
    if (withFigures) keyBlock(page, content, { ...frame, minY: frame.maxY - keyMm }, false);
    if (channels.length > 0) inputPage(page, channels, { ...frame, maxY: frame.maxY - keyMm }, room.minY);
    return finished(page, [], format, of);
  };

  const channels = inputList(plan, setup);
  const onPaper = (scale: number) => `Venue sheet, scale 1:${scale} on ${PAPERS[paper].label}`;
  const details = { documentType: 'Venue sheet: inputs', subject: `Input list on ${PAPERS[paper].label}`, scale: '-' };
  const single = fitOf('stage', 'all', { withFigures: true, withInputs: false });
  const bare = { withFigures: false, withInputs: false };
  const kit = hasStageBeside(plan, setup, layout) ? fitOf('kit', 'all', bare) : null;

  if (kit && kit.scale < single.scale) {
    const stage = fitOf('stage', 'riser', bare);
    const pages = [
      { view: 'stage', fit: stage, documentType: 'Venue sheet: stage' },
      { view: 'kit', fit: kit, documentType: 'Venue sheet: kit' },
    ] as const;
    const drawings = pages.map(({ view, fit, documentType }, k) => {
      const of = { documentType, subject: onPaper(fit.scale), scale: `1:${fit.scale}`, number: k + 1, count: 3 };
      return drawingSheet(view, fit, view === 'stage', of);
    });
    return [...drawings, detailsPage(true, { ...details, number: 3, count: 3 })];
  }

  // The input list goes on the page unless it would cost a scale.
  const listed = fitOf('stage', 'all', { withFigures: true, withInputs: true });
  const fit = listed.scale === single.scale ? listed : single;
  const alone = fit.parts.withInputs || channels.length === 0;
  const of = { documentType: 'Venue sheet: plan view', subject: onPaper(fit.scale), scale: `1:${fit.scale}` };
  const drawing = drawingSheet('stage', fit, false, { ...of, number: 1, count: alone ? 1 : 2 });
  return alone ? [drawing] : [drawing, detailsPage(false, { ...details, number: 2, count: 2 })];
}

/** The first page alone. */
export function venueSheet(...call: Parameters<typeof venueSheets>): Sheet {
  return venueSheets(...call)[0];
}
