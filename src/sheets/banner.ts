/** A warning along the upper margin of a sheet's first page, where nobody who unfolds it can miss it. */
import { THIN, WIDE } from '../drawing/displayList.ts';
import { MARGIN_MM } from './framed.ts';
import type { Page } from './page.ts';
import type { Sheet } from './sheet.ts';

/** On paper, mm: what printers leave blank, the band, its type. */
const BLANK_MM = 4.2;
const BAND_MM = 5;
const TYPE_MM = 3.2;
const PAD_MM = 1.5;

/** The sheets with a line of words on the first; as they are where there is nothing to say. */
export function withBanner(sheets: readonly Sheet[], text: string, page: Page): Sheet[] {
  if (text === '' || sheets.length === 0) return [...sheets];
  const [first, ...rest] = sheets;
  const [minX, maxX] = [MARGIN_MM, first.widthMm - MARGIN_MM];
  const maxY = first.heightMm - BLANK_MM;
  const minY = maxY - BAND_MM;
  page.box(minX, minY, maxX, maxY, { line: WIDE });
  page.line(minX + BAND_MM, minY, minX + BAND_MM, maxY, { line: THIN });
  page.text('!', minX + BAND_MM / 2, minY + PAD_MM, { sizeMm: TYPE_MM, bold: true, anchor: 'middle' });
  const x = minX + BAND_MM + PAD_MM;
  page.fitted(text, x, minY + PAD_MM, maxX - x - PAD_MM, { sizeMm: TYPE_MM, bold: true });
  return [{ ...first, marks: [...first.marks, ...page.marks] }, ...rest];
}
