/** Sliding clamps: between neighbours of their widths, and out of an overlap but not further in. */
import { expect, test } from 'vitest';
import type { ClampPlace } from '../../../src/checks/barRoom.ts';
import { slideRange } from '../../../src/checks/clampSlide.ts';

const clamp = (atMm: number, widthMm: number): ClampPlace => ({ piece: 'p', gear: null, joint: false, atMm, widthMm });

test('alone: to half its width from either end', () => {
  expect(slideRange(1000, [], 400, 50)).toEqual([25, 975]);
});

test('between neighbours: half of both widths away', () => {
  expect(slideRange(1000, [clamp(100, 60), clamp(700, 40)], 400, 50)).toEqual([155, 655]);
});

test('one that overlaps its neighbour may leave it, not go further in', () => {
  expect(slideRange(1000, [clamp(380, 60)], 400, 50)).toEqual([400, 975]);
  expect(slideRange(1000, [], 10, 50)).toEqual([10, 975]);
});
