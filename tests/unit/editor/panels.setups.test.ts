/** Setups side by side: their small drawings, readings and differences. */
import { describe, expect, test } from 'vitest';
import { commonWindow, outlinePath, pictureOf, viewBoxOf } from '../../../src/editor/panels/setups/picture.ts';
import { bentCapsule, capsule, disc, rectangle } from '../../../src/geometry/shapes.ts';
import type { Body } from '../../../src/layout/body.ts';
import { differenceOf, READING_ROWS, rowText, type SetupReadings, worstOf } from '../../../src/words/readingRows.ts';

describe('outlines as paths', () => {
  test('a disc is two half circles, drawn with y down', () => {
    expect(outlinePath(disc(100, 50, 10))).toBe('M110 -50A10 10 0 0 0 90 -50A10 10 0 0 0 110 -50Z');
  });

  test('a rectangle is its corners', () => {
    const path = outlinePath(rectangle(0, 0, 20, 10, 0));
    expect(path.match(/-?\d+ -?\d+(?=[LZ]|$)/g)!.sort()).toEqual(
      expect.arrayContaining(['-10 -5', '-10 5', '10 -5', '10 5']),
    );
  });

  test('a straight tube has two straight sides and two round ends', () => {
    const path = outlinePath(capsule(0, 0, 100, 0, 10));
    expect(path.match(/L/g)).toHaveLength(2);
    expect(path.match(/A/g)).toHaveLength(2);
  });

  test('a curved tube keeps its arcs: outer, inner and two ends', () => {
    const path = outlinePath(bentCapsule(0, 0, 500, 0, 1, 20));
    expect(path).not.toContain('L');
    expect([...path.matchAll(/A(\d+)/g)].map(([, r]) => Number(r)).sort((a, b) => a - b)).toEqual([20, 20, 480, 520]);
  });

  test('arcs turn the way that keeps them on the circle', () => {
    // Each arc's chord is at most its diameter, and its ends lie on the outline: distance r from the centre.
    const path = outlinePath(disc(0, 0, 7));
    for (const [, x, y] of path.matchAll(/(-?[\d.]+) (-?[\d.]+)(?=[AZ])/g))
      expect(Math.hypot(Number(x), Number(y))).toBeCloseTo(7, 1);
  });
});

describe('one scale for all', () => {
  const body = (shape: Body['shape'], z1: number) =>
    ({ id: `b${z1}`, kind: 'tom', touchesFloor: false, shape, z1 }) as Body;
  const small = pictureOf([body(rectangle(0, 0, 1500, 1000, 0), 1)]);
  const large = pictureOf([body(rectangle(500, 0, 3000, 1800, 0), 1)]);

  test('the window holds the largest, and every card has it', () => {
    const window = commonWindow([small, large], 1.5);
    expect(window.widthMm).toBeCloseTo(3000 * 1.05, 6);
    expect(window.heightMm).toBeCloseTo(window.widthMm / 1.5, 6);
    const size = (box: string) => box.split(' ').slice(2);
    expect(size(viewBoxOf(small, window))).toEqual(size(viewBoxOf(large, window)));
  });

  test('each is centred on its own middle', () => {
    const window = commonWindow([large], 1.5);
    const [x, y, w, h] = viewBoxOf(large, window).split(' ').map(Number);
    expect(x + w / 2).toBeCloseTo(500, 1);
    expect(y + h / 2).toBeCloseTo(0, 1);
  });

  test('the deck is in the picture', () => {
    const onDeck = pictureOf([body(disc(0, 0, 100), 1)], [[-2000, -1000, 2000, -1000, 2000, 1000, -2000, 1000]]);
    expect(onDeck.box).toEqual({ minX: -2000, minY: -1000, maxX: 2000, maxY: 1000 });
  });

  test('an empty setup has a window too', () => {
    expect(commonWindow([pictureOf([])], 1.5).widthMm).toBeGreaterThan(0);
  });

  test('what stands low is drawn first', () => {
    const { marks } = pictureOf([body(disc(0, 0, 1), 900), body(disc(0, 0, 1), 100)]);
    expect(marks.map(({ id }) => id)).toEqual(['b100', 'b900']);
  });
});

const readings = (changes: Partial<SetupReadings> = {}): SetupReadings => ({
  floorHullArea: 3.4,
  shadowArea: 2.1,
  extent: { width: 2400, depth: 1900 },
  smallestRectangle: { width: 2300, depth: 1850 },
  riserMargin: 60,
  pieceCount: 20,
  ...changes,
});
const row = (key: string) => READING_ROWS.find((one) => one.key === key)!;

describe('differences', () => {
  test.each([
    ['less floor is better', 'floor', { floorHullArea: 3.19 }, '−0.21 m²', 'better'],
    ['more floor is worse', 'floor', { floorHullArea: 3.61 }, '+0.21 m²', 'worse'],
    ['more margin is better', 'margin', { riserMargin: 95 }, '+35 mm', 'better'],
    ['a negative margin is worse', 'margin', { riserMargin: -20 }, '−80 mm', 'worse'],
    ['what rounds to nothing is the same', 'floor', { floorHullArea: 3.4004 }, 'same', 'neither'],
    ['more pieces are neither', 'pieces', { pieceCount: 21 }, '+1', 'neither'],
  ] as const)('%s', (_, key, changes, text, sense) => {
    expect(differenceOf(row(key), readings(changes), readings(), 'mm')).toEqual({ text, sense });
  });

  test('in feet and inches', () => {
    expect(differenceOf(row('margin'), readings({ riserMargin: 60 + 25.4 }), readings(), 'in')?.text).toBe('+1"');
  });

  test('without a riser there is no margin to compare', () => {
    expect(differenceOf(row('margin'), readings({ riserMargin: null }), readings(), 'mm')).toBeNull();
    expect(rowText(row('margin'), readings({ riserMargin: null }), 'mm')).toBe('–');
  });

  test('a rectangle is told by its sides and compared by its area', () => {
    expect(rowText(row('rectangle'), readings(), 'mm')).toBe('2300 mm × 1850 mm');
    const other = readings({ smallestRectangle: { width: 1900, depth: 1850 } });
    expect(differenceOf(row('rectangle'), other, readings(), 'mm')?.text).toBe('−0.74 m²');
  });
});

test('the worst finding comes before the more frequent one', () => {
  const finding = (state: string) => ({ state }) as never;
  expect(worstOf(['clear', 'tight', 'tight', 'blocked'].map(finding))).toEqual({ state: 'blocked', count: 1 });
  expect(worstOf(['clear', 'clear'].map(finding))).toEqual({ state: 'clear', count: 2 });
});
