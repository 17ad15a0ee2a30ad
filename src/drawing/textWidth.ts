/**
 * How wide a text runs, for placing labels. A sheet brings its font's own widths; without a font this estimate serves,
 * which is on the wide side so that labels keep apart.
 *
 * Units: mm, for a type size (em) in mm. Error: the estimate is within about 15 % of Open Sans for names and numbers.
 */
import { boxRound, CAPITAL_OF_EM, type DrawnBox, type TextMark } from './displayList.ts';

export type MeasureText = (text: string, sizeMm: number, bold: boolean) => number;

const NARROW = new Set([..."iljtfrI1.,:;'|!()[]- "]);
const BROAD = new Set([...'mwMWQOGÆŒЖШЩЮΩ@%&']);

export const estimateText: MeasureText = (text, sizeMm, bold) => {
  let em = 0;
  for (const char of text.normalize('NFC')) {
    if (NARROW.has(char)) em += 0.34;
    else if (BROAD.has(char)) em += 0.9;
    else em += char === char.toUpperCase() && char !== char.toLowerCase() ? 0.66 : 0.58;
  }
  return em * sizeMm * (bold ? 1.06 : 1);
};

/**
 * Breaks a text at its spaces (but not at no-break spaces) into lines of at most `widthMm`; a word that is wider stands alone. The lines are as even as
 * they can be for their number.
 */
export function wrapText(text: string, widthMm: number, sizeMm: number, bold: boolean, measure: MeasureText): string[] {
  const words = text.split(/[^\S\u00a0]+/).filter((word) => word !== '');
  if (words.length === 0) return [];
  const fill = (limit: number): string[] => {
    const lines: string[] = [words[0]];
    for (const word of words.slice(1)) {
      const longer = `${lines[lines.length - 1]} ${word}`;
      if (measure(longer, sizeMm, bold) <= limit) lines[lines.length - 1] = longer;
      else lines.push(word);
    }
    return lines;
  };
  const lines = fill(widthMm);
  // The least limit that keeps the number of lines makes them even; ten halvings bring it to a thousandth.
  let low = 0;
  let high = widthMm;
  for (let k = 0; k < 10; k++) {
    const middle = (low + high) / 2;
    if (fill(middle).length > lines.length) low = middle;
    else high = middle;
  }
  return fill(high);
}

/** A text's box, for keeping things apart: upright texts and texts turned by quarter turns. */
export function textBox(mark: TextMark, scale: number, measure: MeasureText): DrawnBox {
  const w = measure(mark.text, mark.sizeMm, mark.bold) * scale;
  const start = mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? -w / 2 : -w;
  const c = Math.cos(mark.rotation);
  const s = Math.sin(mark.rotation);
  const low = -0.24 * mark.sizeMm * scale;
  const high = CAPITAL_OF_EM * mark.sizeMm * scale;
  const corners = [
    [start, low],
    [start + w, low],
    [start, high],
    [start + w, high],
  ];
  return boxRound(corners.map(([u, v]) => [mark.x + c * u - s * v, mark.y + s * u + c * v]));
}
