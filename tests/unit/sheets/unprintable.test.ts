import { describe, expect, test } from 'vitest';
import { sheetFonts } from '../../../src/cli/fonts.ts';
import { style, textMark } from '../../../src/drawing/displayList.ts';
import { printable } from '../../../src/sheets/fontFile.ts';
import type { Sheet } from '../../../src/sheets/sheet.ts';
import { unprintable, unprintableSentence } from '../../../src/sheets/unprintable.ts';

const fonts = sheetFonts();
const { regular } = fonts;

describe('a text as it is printed', () => {
  test.each<[string, string, string]>([
    ['what the face has stays', 'Ænima Ωμέγα Їжак 12" × 8"', 'Ænima Ωμέγα Їжак 12" × 8"'],
    ['a run of others as their codes', '太鼓 snare', '[U+592A U+9F13] snare'],
    ['beyond the first plane', '🥁', '[U+1F941]'],
    ['runs apart', '太 a 鼓', '[U+592A] a [U+9F13]'],
    ['loose accents find their one character', 'Žižek'.normalize('NFD'), 'Žižek'],
    ['what is not seen is no loss', 'Tom\ufe0f\u180e 1', 'Tom 1'],
    ['control characters part words', 'two\nlines\tand\u0000more', 'two lines and more'],
    ['nothing', '', ''],
  ])('%s', (_, text, shown) => expect(printable(text, regular)).toBe(shown));

  test('its width is that of what is printed', () => {
    for (const text of ['太鼓 snare', 'two\nlines', 'Snare 14', 'Ωμέγα', '']) {
      let sum = 0;
      for (const char of printable(text, regular)) sum += regular.width(char);
      expect(regular.width(text)).toBeCloseTo(sum, 12);
    }
    expect(regular.width('太')).toBeCloseTo(regular.width('[U+592A]'), 12);
  });
});

describe('what is said before printing', () => {
  const sheetOf = (...texts: readonly string[]): Sheet => ({
    widthMm: 210,
    heightMm: 297,
    title: '',
    subject: '',
    date: '2026-03-14',
    marks: texts.map((text) => textMark(style('names'), text, 10, 10, 4)),
  });

  test('nothing, where all prints as it is spelled', () =>
    expect(unprintable([sheetOf('Snare', 'Молот')], fonts)).toBeNull());

  test('each character and each text once, in the order of the sheets', () =>
    expect(unprintable([sheetOf('太鼓', 'Snare'), sheetOf('鼓 2', '太鼓')], fonts)).toEqual({
      characters: ['太', '鼓'],
      texts: ['太鼓', '鼓 2'],
    }));

  test('in sentences: what, where, what is printed, what to do', () => {
    const found = unprintable([sheetOf('鼓 1', '鼓 2', '鼓 3', '鼓 4', '鼓 5', '鼓 6')], fonts);
    expect(unprintableSentence(found!)).toBe(
      'The typeface has no 鼓, found in "鼓 1", "鼓 2", "鼓 3", "鼓 4" and 2 more. ' +
        'The sheet prints such a character as its code (U+9F13 for 鼓); ' +
        'for the name as it is spoken, write it in Latin, Greek or Cyrillic letters.',
    );
  });
});
