import { expect, test } from 'vitest';
import { arcCurves } from '../../../src/sheets/beziers.ts';

test('a circle is eight curves whose radius is within 4.3e-6 of itself everywhere', () => {
  const curves = arcCurves(0, 0, 1, 1, 0, 0, 2 * Math.PI);
  expect(curves).toHaveLength(8);
  let [x0, y0] = [1, 0];
  let worst = 0;
  for (const [ax, ay, bx, by, x, y] of curves) {
    for (let k = 0; k <= 200; k++) {
      const t = k / 200;
      const u = 1 - t;
      const px = u * u * u * x0 + 3 * u * u * t * ax + 3 * u * t * t * bx + t * t * t * x;
      const py = u * u * u * y0 + 3 * u * u * t * ay + 3 * u * t * t * by + t * t * t * y;
      worst = Math.max(worst, Math.abs(Math.hypot(px, py) - 1));
    }
    [x0, y0] = [x, y];
  }
  expect(worst).toBeLessThan(4.3e-6);
  expect(Math.hypot(x0 - 1, y0)).toBeLessThan(1e-12);
});

test('an arc ends where it should, clockwise too, and a turned ellipse keeps its axes', () => {
  const back = arcCurves(5, 6, 10, 10, 0, 1, -2.5);
  expect(back).toHaveLength(4);
  const end = back[back.length - 1];
  expect(end[4]).toBeCloseTo(5 + 10 * Math.cos(-1.5), 12);
  expect(end[5]).toBeCloseTo(6 + 10 * Math.sin(-1.5), 12);
  const quarter = arcCurves(0, 0, 8, 3, Math.PI / 2, 0, Math.PI / 2);
  expect(quarter[quarter.length - 1][4]).toBeCloseTo(-3, 12);
});
