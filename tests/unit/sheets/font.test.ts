import { describe, expect, test } from 'vitest';
import { sheetFonts } from '../../../src/cli/fonts.ts';
import { missingCharacters, readFont } from '../../../src/sheets/fontFile.ts';
import { measureWith, Page } from '../../../src/sheets/page.ts';

const fonts = sheetFonts();

describe('missing characters', () => {
  test.each<[string, string, string[]]>([
    ['Latin with accents', 'Ænima Žižek Łódź Ðorđe', []],
    ['Greek and Cyrillic', 'Ωμέγα Молот Її', []],
    ['loose accents', 'Žižek'.normalize('NFD'), []],
    ['signs that sheets use', '1:20 12" 5’ × m² … –', []],
    ['others, each once, in order', '太鼓 tom 太 ⟶', ['太', '鼓', '⟶']],
    ['outside the first plane', 'a𝄞b', ['𝄞']],
  ])('%s', (_, text, missing) => expect(missingCharacters(text, fonts.regular)).toEqual(missing));
});

test('figures are all alike in width, so that columns of numbers line up; widths add up', () => {
  const { width } = fonts.regular;
  for (const figure of '123456789') expect(width(figure)).toBe(width('0'));
  expect(width('Tom 12')).toBeCloseTo(
    [...'Tom 12'].reduce((sum, char) => sum + width(char), 0),
    12,
  );
  expect(width('W')).toBeGreaterThan(2 * width('i'));
  expect(width('')).toBe(0);
});

test.each([
  ['nothing', new Uint8Array(0)],
  ['text', new TextEncoder().encode('this is no font at all, whatever its name says')],
])('bytes that are %s are refused in words', (_, bytes) => expect(() => readFont(bytes)).toThrow(/font/));

describe('a text in a place', () => {
  const set = (text: string, widthMm: number) => {
    const page = new Page(measureWith(fonts));
    page.fitted(text, 0, 0, widthMm, { sizeMm: 4 });
    const [mark] = page.marks;
    if (mark.kind !== 'text') throw new Error('no text');
    return { text: mark.text, sizeMm: mark.sizeMm, widthMm: page.measure(mark.text, mark.sizeMm, mark.bold) };
  };
  test('that is wide enough keeps its size', () =>
    expect(set('Snare', 50)).toMatchObject({ text: 'Snare', sizeMm: 4 }));
  test('a little narrow is set smaller, whole', () => {
    const shown = set('Straight side racks', 30);
    expect(shown.text).toBe('Straight side racks');
    expect(shown.widthMm).toBeCloseTo(30, 6);
  });
  test('far too narrow is cut with an ellipsis and still fits', () => {
    const shown = set('A very long name of a setup that nobody would choose', 20);
    expect(shown.text.endsWith('…')).toBe(true);
    expect(shown.text.length).toBeGreaterThan(8);
    expect(shown.widthMm).toBeLessThanOrEqual(20 + 1e-6);
  });
});
