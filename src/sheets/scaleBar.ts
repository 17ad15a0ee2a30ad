/** Scales of ISO 5455, and the bar that shows one. */
import { TEXT_MM, THIN } from '../drawing/displayList.ts';
import { type DisplayUnit, MM_PER_IN } from '../units.ts';
import type { Page } from './page.ts';

/** Reductions, largest first. Source: ISO 5455:1979 (1:1 and 1:2 are no use for a stage). */
export const SCALES: readonly number[] = [5, 10, 20, 50, 100, 200, 500, 1000];

const BAR_HEIGHT_MM = 1.6;
const LONGEST_MM = 62;

/** Lengths that a bar may have, mm of the model, with its divisions and the unit of its numbers. */
const METRIC = [200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000].map((mm) => ({
  mm,
  parts: mm % 500 === 0 && mm !== 2000 ? 5 : 4,
}));
const FEET = [1, 2, 4, 5, 10, 20, 50, 100, 200].map((feet) => ({
  mm: feet * 12 * MM_PER_IN,
  parts: feet % 5 === 0 ? 5 : feet === 1 ? 4 : feet,
}));

/** The longest bar that fits `longestMm` of paper: its length in mm of the model, and in how many parts. */
export function barFor(scale: number, unit: DisplayUnit, longestMm = LONGEST_MM): { mm: number; parts: number } {
  const bars = unit === 'mm' ? METRIC : FEET;
  return bars.filter(({ mm }) => mm / scale <= Math.min(longestMm, LONGEST_MM)).pop() ?? bars[0];
}

/** Draws the bar with its left end at x, its lower edge at y. Returns its length on paper. */
export function scaleBar(
  page: Page,
  x: number,
  y: number,
  scale: number,
  unit: DisplayUnit,
  longestMm?: number,
): number {
  const { mm, parts } = barFor(scale, unit, longestMm);
  const length = mm / scale;
  const top = y + BAR_HEIGHT_MM;
  for (let k = 0; k < parts; k++) {
    const [a, b] = [x + (length * k) / parts, x + (length * (k + 1)) / parts];
    if (k % 2 === 0) page.box(a, y, b, top, { line: null, tint: 'solid' });
  }
  page.box(x, y, x + length, top, { line: THIN, title: `Scale bar: ${mm} mm` });
  const unitName = unit === 'mm' ? 'm' : 'ft';
  const perUnit = unit === 'mm' ? 1000 : 12 * MM_PER_IN;
  for (const part of [0, 0.5, 1]) {
    const value = (mm * part) / perUnit;
    // Halves of a bar are round in every length above but the odd ones, which would need two decimals.
    if (part === 0.5 && Math.abs(value * 10 - Math.round(value * 10)) > 1e-9) continue;
    const text = `${Math.round(value * 100) / 100}${part === 1 ? ` ${unitName}` : ''}`;
    page.text(text, x + length * part, top + 1, { anchor: 'middle', sizeMm: TEXT_MM.small });
  }
  return length;
}
