import { describe, expect, test } from 'vitest';
import { dimensionMarks } from '../../../src/drawing/dimensions.ts';
import type { Mark } from '../../../src/drawing/displayList.ts';
import { estimateText, wrapText } from '../../../src/drawing/textWidth.ts';

const SCALE = 20;

function parts(marks: readonly Mark[]) {
  const chains = marks.flatMap((mark) => (mark.kind === 'path' ? [{ mark, pieces: mark.chains[0].pieces }] : []));
  const ends = (pieces: (typeof chains)[number]['pieces']) => {
    const p = pieces[0];
    return p.kind === 'segment' ? [p.x0, p.y0, p.x1, p.y1] : [];
  };
  return {
    lines: chains.filter(({ mark }) => mark.line !== null).map(({ pieces }) => ends(pieces)),
    tips: chains.filter(({ mark }) => mark.tint === 'solid').map(({ pieces }) => ends(pieces).slice(0, 2)),
    text: marks.find((mark) => mark.kind === 'text'),
  };
}

const common = { text: '1000', scale: SCALE, measure: estimateText };

describe('a width of 1000 between points at different depths', () => {
  const { lines, tips, text } = parts(
    dimensionMarks({ ...common, from: [200, 50], to: [1200, 300], alongRad: 0, lineAt: -400 }),
  );

  test('extension lines start 1 mm of paper off the points and end 1.6 mm past the dimension line', () => {
    expect(lines[0]).toEqual([200, 50 - SCALE, 200, -400 - 1.6 * SCALE]);
    expect(lines[1]).toEqual([1200, 300 - SCALE, 1200, -400 - 1.6 * SCALE]);
  });

  test('the dimension line and its arrows’ tips end at the extension lines', () => {
    expect(lines[2]).toEqual([200, -400, 1200, -400]);
    expect(tips).toEqual([
      [200, -400],
      [1200, -400],
    ]);
  });

  test('the number stands in the middle above the line', () => {
    expect(text).toMatchObject({ text: '1000', x: 700, anchor: 'middle', rotation: 0 });
    expect(text?.kind === 'text' && text.y).toBeGreaterThan(-400);
  });
});

test('a depth reads from the right: turned a quarter, above the line is to its left', () => {
  const { text } = parts(
    dimensionMarks({ ...common, from: [0, 0], to: [0, 1000], alongRad: Math.PI / 2, lineAt: 300 }),
  );
  expect(text).toMatchObject({ rotation: Math.PI / 2 });
  expect(text?.kind === 'text' && text.x).toBeLessThan(-300);
  expect(text?.kind === 'text' && text.y).toBeCloseTo(500, 9);
});

test('a measure too short for its arrows and number has the arrows outside, pointing in', () => {
  const { lines } = parts(
    dimensionMarks({ ...common, text: '60', from: [0, 0], to: [60, 0], alongRad: 0, lineAt: -200 }),
  );
  const [x0, , x1] = lines[2];
  expect(x0).toBeLessThan(0);
  expect(x1).toBeGreaterThan(60);
});

describe('wrapping', () => {
  const measure = (text: string) => text.length;
  test.each<[string, number, string[]]>([
    ['Floor tom 16', 20, ['Floor tom 16']],
    ['Floor tom 16', 9, ['Floor', 'tom 16']],
    ['Floor tom sixteen', 11, ['Floor tom', 'sixteen']],
    ['Unbreakable', 4, ['Unbreakable']],
    ['  two   words ', 30, ['two words']],
    ['', 10, []],
  ])('%s in %i', (text, width, lines) => expect(wrapText(text, width, 1, false, measure)).toEqual(lines));
});
