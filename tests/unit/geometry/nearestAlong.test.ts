/** The nearest place of a centre line, held to a fine walk along it. */
import { expect, test } from 'vitest';
import { type CentreLine, lineLength, pointAlong } from '../../../src/geometry/arcsLine.ts';
import { nearestAlong } from '../../../src/geometry/nearestAlong.ts';
import { seeded } from '../../fixtures/kits.ts';
import { seeds } from '../../fixtures/seeds.ts';

test('a straight: the foot of the perpendicular, held to its ends', () => {
  const line: CentreLine = { x: 0, y: 0, heading: 0, before: 1000, radius: 1, angle: 0, after: 0 };
  expect(nearestAlong(line, 300, 80)).toBeCloseTo(300, 9);
  expect(nearestAlong(line, -50, 80)).toBe(0);
  expect(nearestAlong(line, 1200, -80)).toBe(1000);
});

test('a quarter bend: the angle about its centre', () => {
  const line: CentreLine = { x: 0, y: 0, heading: 0, before: 100, radius: 500, angle: Math.PI / 2, after: 100 };
  // Centre (100, 500); straight out at 45 degrees, however far away.
  for (const out of [200, 500, 900]) {
    const x = 100 + out * Math.SQRT1_2;
    const y = 500 - out * Math.SQRT1_2;
    expect(nearestAlong(line, x, y)).toBeCloseTo(100 + (500 * Math.PI) / 4, 6);
  }
});

test('no place of a walk is nearer', () => {
  for (const n of seeds(60, 12)) {
    const random = seeded(n);
    const angle = (random() - 0.5) * 5;
    const line: CentreLine = {
      x: random() * 100,
      y: random() * 100,
      heading: random() * 6,
      before: random() * 300,
      radius: 200 + random() * 900,
      angle,
      after: random() * 300,
    };
    const [x, y] = [(random() - 0.5) * 3000, (random() - 0.5) * 3000];
    const total = lineLength(line);
    const away = (s: number) => {
      const at = pointAlong(line, s);
      return Math.hypot(at.x - x, at.y - y);
    };
    const found = nearestAlong(line, x, y);
    expect(found).toBeGreaterThanOrEqual(0);
    expect(found).toBeLessThanOrEqual(total);
    for (let k = 0; k <= 400; k++) expect(away((total * k) / 400)).toBeGreaterThanOrEqual(away(found) - 1e-9);
  }
});
