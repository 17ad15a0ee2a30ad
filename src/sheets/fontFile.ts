/**
 * Reads what a sheet needs from a TrueType file: which characters it has, and how wide each runs.
 *
 * Units:  widths in parts of the type size (em).
 * Inputs: a TrueType or OpenType file with a Unicode character map of format 4 or 12, as every text face has.
 * Throws: RangeError when the bytes are no such file.
 * Source: the OpenType specification, tables 'head', 'hhea', 'hmtx' and 'cmap'.
 */
export interface FontFile {
  readonly bytes: Uint8Array;
  has(codePoint: number): boolean;
  /** Width of a text in em as it is printed (printable()), without kerning, which is how it is set. */
  width(text: string): number;
}

/** The two weights that sheets use. */
export interface SheetFonts {
  readonly regular: FontFile;
  readonly bold: FontFile;
}

/** Every sheet writes text in this form, so that an accent typed as two characters finds its one glyph. */
export const composed = (text: string): string => text.normalize('NFC');

/** The printable characters of ASCII: a space to a tilde. */
const ASCII_BEGIN = 0x20;
const ASCII_END = 0x7f;

function readMap(view: DataView, at: number): (codePoint: number) => number {
  const format = view.getUint16(at);
  if (format === 12) {
    const groups = view.getUint32(at + 12);
    return (code) => {
      let low = 0;
      let high = groups - 1;
      while (low <= high) {
        const middle = (low + high) >> 1;
        const group = at + 16 + 12 * middle;
        if (code < view.getUint32(group)) high = middle - 1;
        else if (code > view.getUint32(group + 4)) low = middle + 1;
        else return view.getUint32(group + 8) + code - view.getUint32(group);
      }
      return 0;
    };
  }
  const count = view.getUint16(at + 6) / 2;
  const ends = at + 14;
  const starts = ends + 2 * count + 2;
  const deltas = starts + 2 * count;
  const offsets = deltas + 2 * count;
  return (code) => {
    if (code > 0xffff) return 0;
    for (let k = 0; k < count; k++) {
      if (code > view.getUint16(ends + 2 * k)) continue;
      const start = view.getUint16(starts + 2 * k);
      if (code < start) return 0;
      const offset = view.getUint16(offsets + 2 * k);
      const delta = view.getUint16(deltas + 2 * k);
      if (offset === 0) return (code + delta) & 0xffff;
      // The offset counts from its own place in the table.
      const glyph = view.getUint16(offsets + 2 * k + offset + 2 * (code - start));
      return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
    }
    return 0;
  };
}

/** A font from the bytes of its file. */
export function readFont(bytes: Uint8Array): FontFile {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    const tables = new Map<string, number>();
    for (let k = 0; k < view.getUint16(4); k++) {
      const row = 12 + 16 * k;
      const tag = String.fromCharCode(...bytes.subarray(row, row + 4));
      tables.set(tag, view.getUint32(row + 8));
    }
    const table = (tag: string): number => {
      const at = tables.get(tag);
      if (at === undefined) throw new RangeError(`The font has no table "${tag}".`);
      return at;
    };
    const unitsPerEm = view.getUint16(table('head') + 18);
    const longMetrics = view.getUint16(table('hhea') + 34);
    const hmtx = table('hmtx');
    const cmap = table('cmap');
    let best: { at: number; format: number } | null = null;
    for (let k = 0; k < view.getUint16(cmap + 2); k++) {
      const row = cmap + 4 + 8 * k;
      const platform = view.getUint16(row);
      const at = cmap + view.getUint32(row + 4);
      const format = view.getUint16(at);
      // Unicode or Windows maps; the one with the larger range wins.
      if ((platform === 0 || platform === 3) && (format === 4 || format === 12) && format > (best?.format ?? 0))
        best = { at, format };
    }
    if (!best) throw new RangeError('The font has no Unicode character map.');
    const glyphOf = readMap(view, best.at);
    const widths = new Map<number, number>();
    const widthOf = (code: number): number => {
      let width = widths.get(code);
      if (width === undefined) {
        const glyph = Math.min(glyphOf(code), longMetrics - 1);
        width = view.getUint16(hmtx + 4 * glyph) / unitsPerEm;
        widths.set(code, width);
      }
      return width;
    };
    const has = (codePoint: number) => glyphOf(codePoint) !== 0;
    // Most of what a sheet says is plain ASCII, and labels are measured by the thousand: those widths are read from a table.
    const plain = Float64Array.from({ length: ASCII_END }, (_, code) =>
      code >= ASCII_BEGIN && has(code) ? widthOf(code) : Number.NaN,
    );
    return {
      bytes,
      has,
      width(text) {
        let sum = 0;
        for (let k = 0; k < text.length; k++) {
          const code = text.charCodeAt(k);
          sum += code < ASCII_END ? plain[code] : Number.NaN;
        }
        if (!Number.isNaN(sum)) return sum;
        sum = 0;
        for (const char of printable(text, { has })) sum += widthOf(char.codePointAt(0)!);
        return sum;
      },
    };
  } catch (error) {
    if (error instanceof RangeError && error.message.startsWith('The font')) throw error;
    throw new RangeError('These bytes are not a TrueType font.');
  }
}

/** Characters that are not seen: joiners, marks of direction, variation selectors. A face without them loses nothing. */
const UNSEEN = /^\p{Default_Ignorable_Code_Point}$/u;
const CONTROL = /^\p{Cc}$/u;

type Face = Pick<FontFile, 'has'>;

const lacks = (char: string, font: Face): boolean => !font.has(char.codePointAt(0)!);
const isMissing = (char: string, font: Face): boolean => lacks(char, font) && !UNSEEN.test(char) && !CONTROL.test(char);

/** The characters of a text that a font cannot print, each once, in the order of the text. */
export function missingCharacters(text: string, font: Face): string[] {
  const missing = new Set<string>();
  for (const char of composed(text)) if (isMissing(char, font)) missing.add(char);
  return [...missing];
}

/** A character by its number in Unicode: U+9F13. */
export const codeOf = (char: string): string => `U+${char.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;

/**
 * A text as a sheet prints it: composed, on one line, and each run of characters that the font lacks as their numbers in
 * brackets, [U+592A U+9F13], so that nothing is lost and nothing is printed as an empty box.
 */
export function printable(text: string, font: Face): string {
  let out = '';
  let run: string[] = [];
  const close = () => {
    if (run.length > 0) out += `[${run.join(' ')}]`;
    run = [];
  };
  for (const char of composed(text)) {
    if (isMissing(char, font)) {
      run.push(codeOf(char));
      continue;
    }
    if (lacks(char, font) && UNSEEN.test(char)) continue;
    close();
    out += CONTROL.test(char) ? ' ' : char;
  }
  close();
  return out;
}
