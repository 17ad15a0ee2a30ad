/** The input list on a page of its own: a ruled table, with room to write in what the sound engineer decides. */
import { TEXT_MM, WIDE } from '../drawing/displayList.ts';
import { type Channel, INPUT_HEADING } from './inputList.ts';
import type { Page } from './page.ts';

const PAD_MM = 3.2;
const HEADING_MM = 12;
/** Room to write by hand, unless there are more channels than the page holds at that. */
const ROW_MM = 7.2;

const COLUMNS = [
  { name: 'Channel', part: 0.1 },
  { name: 'Source', part: 0.3 },
  { name: 'Microphone or DI', part: 0.24 },
  { name: 'Stand', part: 0.14 },
  { name: 'Note', part: 0.22 },
] as const;

/** Fills a frame from its top down to `floorY`. */
export function inputPage(
  page: Page,
  channels: readonly Channel[],
  frame: { readonly minX: number; readonly maxX: number; readonly maxY: number },
  floorY: number,
): void {
  const [left, right] = [frame.minX + PAD_MM, frame.maxX - PAD_MM];
  page.text(INPUT_HEADING, left, frame.maxY - PAD_MM - TEXT_MM.normal, { bold: true, sizeMm: TEXT_MM.normal });
  const top = frame.maxY - HEADING_MM;
  const row = Math.min(ROW_MM, (top - floorY - PAD_MM) / (channels.length + 1));
  const sizeMm = Math.min(TEXT_MM.normal * 0.9, row * 0.72);
  const bottom = top - (channels.length + 1) * row;
  const base = (k: number) => top - k * row - row / 2 - sizeMm * 0.357;
  let x = left;
  for (const { name, part } of COLUMNS) {
    const width = part * (right - left);
    page.line(x, top, x, bottom);
    page.fitted(name, x + 2, base(0), width - 4, { sizeMm: Math.min(TEXT_MM.small, sizeMm), faint: true });
    for (const { number, source } of channels) {
      if (name === 'Channel') page.text(String(number), x + width - 3, base(number), { sizeMm, anchor: 'end' });
      if (name === 'Source') page.fitted(source, x + 2, base(number), width - 4, { sizeMm });
    }
    x += width;
  }
  page.line(right, top, right, bottom);
  for (let k = 0; k <= channels.length + 1; k++)
    page.line(left, top - k * row, right, top - k * row, k === 1 ? { line: WIDE } : {});
}
