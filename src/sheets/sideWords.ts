/** The names of the stage's sides along a drawing's upper edge: stage right is on the sheet's left. */
import { TEXT_MM } from '../drawing/displayList.ts';
import type { Page } from './page.ts';

const RIGHT = 'STAGE RIGHT';
const LEFT = 'STAGE LEFT';
const UP = 'UPSTAGE';
/** Between one word and the next, mm. */
const CLEAR_MM = 3;

/** Between two edges, on a baseline; "upstage" above the centre line, but clear of the words for the sides, or left out. */
export function sideWords(page: Page, minX: number, maxX: number, y: number, centreX: number | null): void {
  page.text(RIGHT, minX, y, { faint: true });
  page.text(LEFT, maxX, y, { faint: true, anchor: 'end' });
  if (centreX === null) return;
  const wide = (words: string) => page.measure(words, TEXT_MM.small, false);
  const half = wide(UP) / 2 + CLEAR_MM;
  const from = minX + wide(RIGHT) + half;
  const to = maxX - wide(LEFT) - half;
  if (from <= to) page.text(UP, Math.min(to, Math.max(from, centreX)), y, { faint: true, anchor: 'middle' });
}
