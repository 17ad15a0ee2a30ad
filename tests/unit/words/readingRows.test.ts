import { expect, test } from 'vitest';
import { READING_ROWS, rowText, type SetupReadings } from '../../../src/words/readingRows.ts';

const READINGS: SetupReadings = {
  floorHullArea: null,
  shadowArea: null,
  extent: null,
  smallestRectangle: null,
  riserMargin: 20,
  pieceCount: 1,
};

const textOf = (key: string, readings: SetupReadings) => {
  const row = READING_ROWS.find((one) => one.key === key);
  return row && rowText(row, readings, 'mm');
};

test('a pose that is proven says its margin; one that is not says what may be missing', () => {
  const proven = { angle: 3, margin: 65, within: 0.01 };
  const open = { angle: 3, margin: 65, within: 9 };
  expect(textOf('turned', { ...READINGS, bestRiserPose: proven })).toMatch(/^65 mm at 3\S*$/);
  expect(textOf('turned', { ...READINGS, bestRiserPose: open })).toMatch(/^65 mm at 3\S*, perhaps up to 74 mm$/);
  expect(textOf('shifted', { ...READINGS, bestRiserShift: proven })).toBe('65 mm');
  expect(textOf('shifted', { ...READINGS, bestRiserShift: open })).toBe('65 mm, perhaps up to 74 mm');
  expect(textOf('shifted', { ...READINGS, bestRiserShift: null })).toBe('–');
});
