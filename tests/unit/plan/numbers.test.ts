import { expect, test } from 'vitest';
import { tidyDeg, tidyMm } from '../../../src/plan/numbers.ts';

test.each([
  [0, 0],
  [-0, 0],
  [180, 180],
  [-180, 180],
  [540, 180],
  [181, -179],
  [-181, 179],
  [-179.9999999996, 180],
  [179.9999999996, 180],
  [-360, 0],
  [-1e-12, 0],
  [3610, 10],
  [33.3 + 1e-12, 33.3],
])('WR-4 a heading of %d degrees is written %d', (degrees, written) => expect(tidyDeg(degrees)).toBe(written));

test.each([
  [-1e-9, 0],
  [1234.5678904, 1234.56789],
  [-0.0000005, 0],
  [0.1 + 0.2, 0.3],
])('WR-4 a length of %d mm is written %d', (mm, written) => expect(tidyMm(mm)).toBe(written));
