import { expect, test } from 'vitest';
import {
  boxOfMark,
  boxOfMarks,
  circleMark,
  DASHES,
  ellipseMark,
  LINE_WIDTH_MM,
  type Mark,
  placed,
  polygonMark,
  style,
  textMark,
} from '../../../src/drawing/displayList.ts';

const s = style('drums');
const arc = (start: number, sweep: number): Mark => ({
  ...s,
  kind: 'path',
  chains: [{ pieces: [{ kind: 'arc', cx: 0, cy: 0, r: 10, start, sweep }], closed: false }],
});

test.each<[string, Mark, [number, number, number, number]]>([
  ['circle', circleMark(s, 1, 2, 3), [-2, -1, 4, 5]],
  ['quarter arc', arc(0, Math.PI / 2), [0, 0, 10, 10]],
  ['half arc over the top', arc(0, Math.PI), [-10, 0, 10, 10]],
  ['clockwise half arc under', arc(0, -Math.PI), [-10, -10, 10, 0]],
  ['arc that passes the right side', arc(-0.5, 1), [10 * Math.cos(0.5), -10 * Math.sin(0.5), 10, 10 * Math.sin(0.5)]],
  ['ellipse turned a quarter', ellipseMark(s, 0, 0, 5, 2, Math.PI / 2), [-2, -5, 2, 5]],
  ['polygon', polygonMark(s, [0, 0, 4, 1, 2, 6]), [0, 0, 4, 6]],
])('box of a %s', (_, mark, [minX, minY, maxX, maxY]) => {
  const box = boxOfMark(mark);
  for (const [got, want] of [
    [box.minX, minX],
    [box.minY, minY],
    [box.maxX, maxX],
    [box.maxY, maxY],
  ])
    expect(got).toBeCloseTo(want, 9);
});

test('no marks have a box of no size', () => expect(boxOfMarks([])).toEqual({ minX: 0, minY: 0, maxX: 0, maxY: 0 }));

test('on paper lengths shrink by the scale; text keeps its size', () => {
  const at = { factor: 1 / 20, dx: 100, dy: 50 };
  expect(placed(circleMark(s, 40, -20, 200), at)).toMatchObject({ cx: 102, cy: 49, r: 10 });
  expect(placed(textMark(s, 'Snare', 40, -20, 2.5), at)).toMatchObject({ x: 102, y: 49, sizeMm: 2.5 });
});

test('an ellipse with equal axes is a circle', () => expect(ellipseMark(s, 0, 0, 4, 4, 1).kind).toBe('circle'));

test('wide lines are twice thin ones, and every kind but the continuous has dashes', () => {
  expect(LINE_WIDTH_MM.wide / LINE_WIDTH_MM.thin).toBe(2);
  expect(Object.entries(DASHES).map(([kind, dashes]) => [kind, dashes.length])).toEqual([
    ['continuous', 0],
    ['dashed', 2],
    ['longDashDot', 4],
    ['longDashDoubleDot', 6],
  ]);
});
