/**
 * A sheet as SVG in mm: the same marks with true arcs, a class for each layer, and a title for every element: the piece it is
 * of, or else what kind of thing it is.
 *
 * Numbers are written with at most four decimals: a tenth of a micrometre on paper.
 */
import { DASHES, type Layer, LINE_WIDTH_MM, type Mark, type TextMark } from '../drawing/displayList.ts';
import type { Piece } from '../geometry/outline.ts';
import { toDegrees } from '../units.ts';
import { composed, printable, type SheetFonts } from './fontFile.ts';
import { INK_RGB, type Rgb, TINT_RGB } from './palette.ts';
import type { Sheet } from './sheet.ts';

const number = (value: number): string => String(Math.round(value * 1e4) / 1e4 || 0);

const hex = (rgb: Rgb): string => `#${rgb.map((part) => part.toString(16).padStart(2, '0')).join('')}`;

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** What XML cannot hold at all is left out: control characters, halves of pairs, the two that are no characters. */
const NOT_IN_XML = /[^\t\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu;

function escaped(text: string): string {
  return composed(text)
    .replace(NOT_IN_XML, '')
    .replace(/[&<>"]/g, (char) => ESCAPES[char]);
}

/** For what belongs to no piece. */
const LAYER_WORDS: Readonly<Record<Layer, string>> = {
  deck: 'Riser',
  stage: 'Stage',
  feet: 'Foot',
  stands: 'Stand',
  racks: 'Rack',
  pedals: 'Pedal',
  throne: 'Throne',
  drums: 'Drum',
  cymbals: 'Cymbal',
  mounts: 'Mount',
  centre: 'Centre line',
  dimensions: 'Dimension',
  names: 'Name',
  findings: 'Finding',
  frame: 'Sheet',
};

/** SVG counts y downwards, so a counter-clockwise arc here is one of falling angle there: sweep flag 0. */
function pieceData(p: Piece, h: number, begins: boolean): string {
  if (p.kind === 'segment') {
    const to = `L${number(p.x1)} ${number(h - p.y1)}`;
    return begins ? `M${number(p.x0)} ${number(h - p.y0)}${to}` : to;
  }
  const at = (angle: number) => `${number(p.cx + p.r * Math.cos(angle))} ${number(h - p.cy - p.r * Math.sin(angle))}`;
  // An arc of half a turn or more in one piece is ambiguous to a reader: halves are not.
  const parts = Math.max(1, Math.ceil(Math.abs(p.sweep) / (Math.PI * 0.99)));
  let data = begins ? `M${at(p.start)}` : '';
  for (let k = 1; k <= parts; k++)
    data += `A${number(p.r)} ${number(p.r)} 0 0 ${p.sweep > 0 ? 0 : 1} ${at(p.start + (p.sweep * k) / parts)}`;
  return data;
}

function paint(mark: Mark): string {
  const ink = hex(INK_RGB[mark.ink]);
  if (mark.kind === 'text') return `fill="${ink}"`;
  const parts: string[] = [];
  if (mark.tint === null) parts.push('fill="none"');
  else if (mark.tint === 'solid') parts.push(`fill="${ink}"`);
  else {
    const { rgb, alpha } = TINT_RGB[mark.tint];
    parts.push(`fill="${hex(rgb)}"`);
    if (alpha < 1) parts.push(`fill-opacity="${alpha}"`);
  }
  if (mark.line !== null) {
    const width = LINE_WIDTH_MM[mark.line.width];
    parts.push(`stroke="${ink}" stroke-width="${width}"`);
    const dashes = DASHES[mark.line.kind];
    if (dashes.length > 0) parts.push(`stroke-dasharray="${dashes.map((part) => number(part * width)).join(' ')}"`);
  }
  return parts.join(' ');
}

function element(mark: Mark, h: number, textOf: (mark: TextMark) => string): string {
  const common = `class="${mark.layer}" ${paint(mark)}`;
  const title = `<title>${escaped(mark.title?.trim() || LAYER_WORDS[mark.layer])}</title>`;
  const close = (name: string) => `>${title}</${name}>`;
  switch (mark.kind) {
    case 'circle':
      return `<circle ${common} cx="${number(mark.cx)}" cy="${number(h - mark.cy)}" r="${number(mark.r)}"${close('circle')}`;
    case 'ellipse': {
      const turn = number(-toDegrees(mark.rotation));
      const where = `translate(${number(mark.cx)} ${number(h - mark.cy)}) rotate(${turn})`;
      if (Math.abs(mark.sweep) >= 2 * Math.PI)
        return `<ellipse ${common} rx="${number(mark.rx)}" ry="${number(mark.ry)}" transform="${where}"${close('ellipse')}`;
      const at = (angle: number) => `${number(mark.rx * Math.cos(angle))} ${number(-mark.ry * Math.sin(angle))}`;
      const axes = `${number(mark.rx)} ${number(mark.ry)}`;
      const middle = at(mark.start + mark.sweep / 2);
      const flag = mark.sweep > 0 ? 0 : 1;
      const data = `M${at(mark.start)}A${axes} 0 0 ${flag} ${middle}A${axes} 0 0 ${flag} ${at(mark.start + mark.sweep)}`;
      return `<path ${common} d="${data}" transform="${where}"${close('path')}`;
    }
    case 'path': {
      const data = mark.chains
        .map((chain) => chain.pieces.map((p, k) => pieceData(p, h, k === 0)).join('') + (chain.closed ? 'Z' : ''))
        .join('');
      return `<path ${common} fill-rule="evenodd" d="${data}"${close('path')}`;
    }
    case 'text': {
      const anchor = mark.anchor === 'start' ? '' : ` text-anchor="${mark.anchor}"`;
      const weight = mark.bold ? ' font-weight="600"' : '';
      const turn =
        mark.rotation === 0
          ? ''
          : ` transform="rotate(${number(-toDegrees(mark.rotation))} ${number(mark.x)} ${number(h - mark.y)})"`;
      return `<text ${common} x="${number(mark.x)}" y="${number(h - mark.y)}" font-size="${number(mark.sizeMm)}"${anchor}${weight}${turn}>${title}${escaped(textOf(mark))}</text>`;
    }
  }
}

function written(sheet: Sheet, textOf: (mark: TextMark) => string): string {
  const { widthMm: w, heightMm: h } = sheet;
  const size = `width="${number(w)}mm" height="${number(h)}mm" viewBox="0 0 ${number(w)} ${number(h)}"`;
  // Places were found without kerning.
  const face = `font-family="'Open Sans', sans-serif" font-kerning="none" stroke-linejoin="round"`;
  const head = `<svg xmlns="http://www.w3.org/2000/svg" ${size} ${face}>`;
  const paper = `<rect width="${number(w)}" height="${number(h)}" fill="#ffffff"><title>Paper</title></rect>`;
  const body = sheet.marks.map((mark) => element(mark, h, textOf)).join('\n');
  return `${head}\n<title>${escaped(sheet.title)}</title>\n${paper}\n${body}\n</svg>\n`;
}

/** For any reader: the text is as it was typed, and the reader's own faces serve for what Open Sans lacks. */
export const toSvg = (sheet: Sheet): string => written(sheet, ({ text }) => text);

/** For a device that draws with these fonts alone: what they lack is written as its code, as a PDF has it. */
export const toPrintedSvg = (sheet: Sheet, fonts: SheetFonts): string =>
  written(sheet, ({ text, bold }) => printable(text, bold ? fonts.bold : fonts.regular));
