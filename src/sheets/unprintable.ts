/** What a sheet's typeface lacks, and where: said before printing, never found out on paper. */
import { codeOf, missingCharacters, type SheetFonts } from './fontFile.ts';
import type { Sheet } from './sheet.ts';

export interface Unprintable {
  /** Each once, in the order of the sheet. */
  readonly characters: readonly string[];
  /** The names and notes that hold them, as they stand on the sheet, each once. */
  readonly texts: readonly string[];
}

const MOST_TEXTS = 4;

/** Null where everything prints as it is spelled. */
export function unprintable(sheets: readonly Sheet[], fonts: SheetFonts): Unprintable | null {
  const characters = new Set<string>();
  const texts = new Set<string>();
  for (const { marks } of sheets)
    for (const mark of marks) {
      if (mark.kind !== 'text') continue;
      const missing = missingCharacters(mark.text, mark.bold ? fonts.bold : fonts.regular);
      for (const char of missing) characters.add(char);
      if (missing.length > 0) texts.add(mark.text.trim());
    }
  return characters.size === 0 ? null : { characters: [...characters], texts: [...texts] };
}

/** One sentence on what is wrong and where, one on what is printed and what to do. */
export function unprintableSentence({ characters, texts }: Unprintable): string {
  const quoted = texts.slice(0, MOST_TEXTS).map((text) => `"${text}"`);
  const more = texts.length > MOST_TEXTS ? ` and ${texts.length - MOST_TEXTS} more` : '';
  const [first] = characters;
  return (
    `The typeface has no ${characters.join(' ')}, found in ${quoted.join(', ')}${more}. ` +
    `The sheet prints such a character as its code (${codeOf(first)} for ${first}); ` +
    'for the name as it is spoken, write it in Latin, Greek or Cyrillic letters.'
  );
}
