/** Setting text and lines on a page: mm from the lower left corner, with the fonts' own widths. */
import { boxMark, lineMark, type Mark, type Style, style, TEXT_MM, THIN, textMark } from '../drawing/displayList.ts';
import { type MeasureText, wrapText } from '../drawing/textWidth.ts';
import type { SheetFonts } from './fontFile.ts';

const ELLIPSIS = '…';
/** A text too long for its place is set smaller, down to this part of its size, before it is cut. */
const LEAST_SHRINK = 0.62;
export const LEADING = 1.28;

/** A measure of texts by a sheet's fonts. */
export function measureWith(fonts: SheetFonts): MeasureText {
  return (text, sizeMm, bold) => (bold ? fonts.bold : fonts.regular).width(text) * sizeMm;
}

const frame: Style = style('frame');

export interface TextOptions {
  readonly sizeMm?: number;
  readonly bold?: boolean;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly faint?: boolean;
  readonly rotation?: number;
}

export class Page {
  readonly marks: Mark[] = [];

  constructor(readonly measure: MeasureText) {}

  text(text: string, x: number, y: number, options: TextOptions = {}): void {
    const { sizeMm = TEXT_MM.small, bold = false, anchor = 'start', faint = false, rotation = 0 } = options;
    const s = { ...frame, ink: faint ? 'faint' : 'ink' } as const;
    this.marks.push(textMark(s, text, x, y, sizeMm, { anchor, bold, rotation }));
  }

  /** One line that fits `widthMm`: set smaller if it must be, and cut with an ellipsis only when that is not enough. */
  fitted(text: string, x: number, y: number, widthMm: number, options: TextOptions = {}): void {
    const { sizeMm = TEXT_MM.small, bold = false } = options;
    const share = widthMm / Math.max(this.measure(text, sizeMm, bold), 1e-9);
    if (share >= 1) {
      this.text(text, x, y, options);
      return;
    }
    const smaller = sizeMm * Math.max(share, LEAST_SHRINK);
    let shown = text;
    const chars = [...text];
    while (chars.length > 1 && this.measure(shown, smaller, bold) > widthMm + 1e-9) {
      chars.pop();
      shown = `${chars.join('').trimEnd()}${ELLIPSIS}`;
    }
    this.text(shown, x, y, { ...options, sizeMm: smaller });
  }

  /** Lines from a first baseline down; returns the baseline after the last. */
  paragraph(text: string, x: number, y: number, widthMm: number, options: TextOptions = {}): number {
    const { sizeMm = TEXT_MM.small, bold = false } = options;
    let at = y;
    for (const part of text.split('\n'))
      for (const line of wrapText(part, widthMm, sizeMm, bold, this.measure)) {
        this.fitted(line, x, at, widthMm, options);
        at -= sizeMm * LEADING;
      }
    return at;
  }

  /** How deep a paragraph would be. */
  paragraphHeight(text: string, widthMm: number, sizeMm: number): number {
    const lines = text.split('\n').flatMap((part) => wrapText(part, widthMm, sizeMm, false, this.measure));
    return lines.length * sizeMm * LEADING;
  }

  line(x0: number, y0: number, x1: number, y1: number, changes: Partial<Style> = {}): void {
    this.marks.push(lineMark({ ...frame, line: THIN, ...changes }, x0, y0, x1, y1));
  }

  box(minX: number, minY: number, maxX: number, maxY: number, changes: Partial<Style> = {}): void {
    this.marks.push(boxMark({ ...frame, line: THIN, ...changes }, minX, minY, maxX, maxY));
  }
}
