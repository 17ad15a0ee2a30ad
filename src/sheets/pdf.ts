/**
 * Sheets as a PDF: vector, with searchable text in an embedded font, and the same bytes for the same sheets.
 *
 * Units:  sheets are in mm; a PDF counts in 1/72 in (PDF 32000-1:2008, 8.3.2.3), and five decimals keep a length within 2 nm.
 * Inputs: fonts from readFont(). Characters that the font lacks are printed as their codes and come back beside the bytes.
 */
import { GState, jsPDF } from 'jspdf';
import { DASHES, LINE_WIDTH_MM, type Line, type Mark, type TextMark } from '../drawing/displayList.ts';
import { TAU } from '../geometry/frame.ts';
import { MM_PER_IN, toDegrees } from '../units.ts';
import { arcCurves } from './beziers.ts';
import { composed, missingCharacters, printable, type SheetFonts } from './fontFile.ts';
import { INK_RGB, TINT_RGB } from './palette.ts';
import type { Sheet } from './sheet.ts';

const PT_PER_MM = 72 / MM_PER_IN;

/** The faces' names in the file, after the tag of a subset. */
const FACES = { regular: 'OpenSans-Regular', bold: 'OpenSans-SemiBold' } as const;

export interface Pdf {
  readonly bytes: Uint8Array;
  /** Characters that could not be printed, each once. */
  readonly missing: readonly string[];
}

/** Bytes as the string of characters 0 to 255 that jsPDF takes for a file; in pieces, for the call's argument limit. */
function binaryString(bytes: Uint8Array): string {
  let text = '';
  for (let k = 0; k < bytes.length; k += 8192) text += String.fromCharCode(...bytes.subarray(k, k + 8192));
  return text;
}

/** 32 hexadecimal digits from the sheets' content: four runs of FNV-1a with different beginnings, side by side. */
function fileId(sheets: readonly Sheet[]): string {
  const text = JSON.stringify(sheets);
  const prime = 0x01000193;
  let [a, b, c, d] = [0x811c9dc5, 0x01000193, 0x9e3779b9, 0x7f4a7c15];
  for (let k = 0; k < text.length; k++) {
    const code = text.charCodeAt(k);
    a = Math.imul(a ^ code, prime);
    b = Math.imul(b ^ code, prime);
    c = Math.imul(c ^ code, prime);
    d = Math.imul(d ^ code, prime);
  }
  return [a, b, c, d].map((hash) => (hash >>> 0).toString(16).padStart(8, '0')).join('');
}

/**
 * Six capitals that mark a font in a file as a subset, other ones for other contents. Source: ISO 32000-1, 9.6.4 (clause from
 * memory), held by a reader in tests/outside/pdfReaders.test.ts.
 */
function subsetTag(id: string, face: keyof typeof FACES): string {
  const digits = face === 'regular' ? id.slice(0, 12) : id.slice(12, 24);
  return Array.from({ length: 6 }, (_, k) =>
    String.fromCharCode(65 + (Number.parseInt(digits.slice(2 * k, 2 * k + 2), 16) % 26)),
  ).join('');
}

class Writer {
  private readonly missing = new Set<string>();

  constructor(
    private readonly doc: jsPDF,
    private readonly fonts: SheetFonts,
    /** The faces' names in this file. */
    private readonly names: Readonly<Record<keyof typeof FACES, string>>,
  ) {}

  page(sheet: Sheet): void {
    this.doc.setLineJoin('round');
    this.doc.setLineCap('butt');
    for (const mark of sheet.marks) this.mark(mark, sheet.heightMm);
  }

  missingCharacters(): string[] {
    return [...this.missing];
  }

  private mark(mark: Mark, pageHeightMm: number): void {
    if (mark.kind === 'text') {
      this.text(mark, pageHeightMm);
      return;
    }
    const { doc } = this;
    if (mark.tint !== null) {
      const { rgb, alpha } = mark.tint === 'solid' ? { rgb: INK_RGB[mark.ink], alpha: 1 } : TINT_RGB[mark.tint];
      doc.setFillColor(...rgb);
      if (alpha < 1) doc.setGState(new GState({ opacity: alpha }));
      this.path(mark, pageHeightMm);
      doc.fillEvenOdd();
      if (alpha < 1) doc.setGState(new GState({ opacity: 1 }));
    }
    if (mark.line !== null) {
      this.line(mark.line);
      doc.setDrawColor(...INK_RGB[mark.ink]);
      this.path(mark, pageHeightMm);
      doc.stroke();
    }
  }

  private line({ kind, width }: Line): void {
    const widthMm = LINE_WIDTH_MM[width];
    this.doc.setLineWidth(widthMm);
    this.doc.setLineDashPattern(
      DASHES[kind].map((part) => part * widthMm),
      0,
    );
  }

  /** The mark's outline as PDF path operators. jsPDF counts y downwards. */
  private path(mark: Exclude<Mark, TextMark>, h: number): void {
    const { doc } = this;
    const curves = (...arc: Parameters<typeof arcCurves>) => {
      for (const [ax, ay, bx, by, x, y] of arcCurves(...arc)) doc.curveTo(ax, h - ay, bx, h - by, x, h - y);
    };
    if (mark.kind === 'path') {
      for (const chain of mark.chains) {
        chain.pieces.forEach((p, k) => {
          if (p.kind === 'segment') {
            if (k === 0) doc.moveTo(p.x0, h - p.y0);
            doc.lineTo(p.x1, h - p.y1);
            return;
          }
          if (k === 0) doc.moveTo(p.cx + p.r * Math.cos(p.start), h - (p.cy + p.r * Math.sin(p.start)));
          curves(p.cx, p.cy, p.r, p.r, 0, p.start, p.sweep);
        });
        if (chain.closed) doc.close();
      }
      return;
    }
    const ellipse =
      mark.kind === 'circle' ? { ...mark, rx: mark.r, ry: mark.r, rotation: 0, start: 0, sweep: TAU } : mark;
    const { cx, cy, rx, ry, rotation, start, sweep } = ellipse;
    const c = Math.cos(rotation);
    const s = Math.sin(rotation);
    const [u, v] = [rx * Math.cos(start), ry * Math.sin(start)];
    doc.moveTo(cx + c * u - s * v, h - (cy + s * u + c * v));
    curves(cx, cy, rx, ry, rotation, start, sweep);
    if (Math.abs(sweep) >= TAU) doc.close();
  }

  private text(mark: TextMark, h: number): void {
    const { doc } = this;
    const font = mark.bold ? this.fonts.bold : this.fonts.regular;
    for (const char of missingCharacters(mark.text, font)) this.missing.add(char);
    const text = printable(mark.text, font);
    if (text.trim() === '') return;
    // The shift along the baseline is made here: jsPDF misplaces text that is both turned and centred.
    const share = mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? 0.5 : 1;
    const back = font.width(text) * mark.sizeMm * share;
    const x = mark.x - back * Math.cos(mark.rotation);
    const y = mark.y - back * Math.sin(mark.rotation);
    doc.setFont(this.names[mark.bold ? 'bold' : 'regular'], 'normal');
    doc.setFontSize(mark.sizeMm * PT_PER_MM);
    doc.setTextColor(...INK_RGB[mark.ink]);
    doc.text(text, x, h - y, { angle: toDegrees(mark.rotation) });
  }
}

/** jsPDF takes the years 1970 to 2037 alone. */
const LAST_YEAR = 2037;

/** One PDF with a page for each sheet. Throws: RangeError for no sheets or a date that is none. */
export function toPdf(sheets: Sheet | readonly Sheet[], fonts: SheetFonts): Pdf {
  const all = 'marks' in sheets ? [sheets] : sheets;
  if (all.length === 0) throw new RangeError('A PDF needs at least one sheet.');
  const [first] = all;
  const date = /^(\d{4})-(\d{2})-(\d{2})$/.exec(first.date);
  if (!date) throw new RangeError(`A sheet's date is written YYYY-MM-DD, not "${first.date}".`);
  const orientation = (sheet: Sheet) => (sheet.widthMm > sheet.heightMm ? 'landscape' : 'portrait');
  const doc = new jsPDF({
    unit: 'mm',
    format: [first.widthMm, first.heightMm],
    orientation: orientation(first),
    floatPrecision: 5,
    putOnlyUsedFonts: true,
    compress: true,
  });
  const id = fileId(all);
  doc.setFileId(id);
  const year = Math.min(Number(date[1]), LAST_YEAR);
  doc.setCreationDate(`D:${year}${date[2]}${date[3]}000000+00'00'`);
  doc.setProperties({ title: composed(first.title), subject: composed(first.subject), creator: 'Legroom' });
  // A one-to-one print keeps the scale; readers may offer to fit the page instead.
  doc.viewerPreferences({ PrintScaling: 'None' });
  const names = { regular: '', bold: '' };
  for (const face of ['regular', 'bold'] as const) {
    names[face] = `${subsetTag(id, face)}+${FACES[face]}`;
    doc.addFileToVFS(`${face}.ttf`, binaryString(fonts[face].bytes));
    doc.addFont(`${face}.ttf`, names[face], 'normal');
  }
  const writer = new Writer(doc, fonts, names);
  all.forEach((sheet, k) => {
    if (k > 0) doc.addPage([sheet.widthMm, sheet.heightMm], orientation(sheet));
    writer.page(sheet);
  });
  return { bytes: new Uint8Array(doc.output('arraybuffer')), missing: writer.missingCharacters() };
}
