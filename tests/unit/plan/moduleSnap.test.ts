/** Modules of a riser lie flush: by hand, and as a law on random modules. */
import { describe, expect, test } from 'vitest';
import { gapValue } from '../../../src/geometry/gap.ts';
import { disc, rectangle } from '../../../src/geometry/shapes.ts';
import { flushModule } from '../../../src/plan/moduleSnap.ts';
import { toRadians } from '../../../src/units.ts';
import { numbersFrom } from '../../fixtures/anyCommand.ts';
import { seeds } from '../../fixtures/seeds.ts';

const module = (id: string, xMm: number, yMm: number, widthMm: number, depthMm: number, headingDeg = 0) => ({
  ...{ id, xMm, yMm, widthMm, depthMm, headingDeg },
});

describe('by hand: one of 2 m x 1 m at the origin, another of 1 m x 1 m', () => {
  const fixed = [module('a', 0, 0, 2000, 1000)];
  test.each<[string, [number, number], [number, number], number]>([
    ['beside its right end, in line', [1530, 12], [1500, 0], 1],
    ['beside its right end, too far along to be in line', [1530, 200], [1500, 200], 1],
    ['over it by a little', [1480, 200], [1500, 200], 1],
    ['upstage of it, left edges in line', [-520, 1030], [-500, 1000], 1],
    ['upstage of it, in its middle', [30, 1030], [30, 1000], 1],
    ['corner to corner', [1520, 985], [1500, 1000], 0],
    ['too far away', [1600, 12], [1600, 12], 0],
    ['well over it', [900, 12], [900, 12], 0],
  ])('%s', (_, [x, y], [wantX, wantY], seams) => {
    const found = flushModule(module('b', x, y, 1000, 1000), fixed, 50);
    expect([found.xMm, found.yMm]).toEqual([wantX, wantY]);
    expect(found.seams).toHaveLength(seams);
  });

  test('the seam is the shared edge', () => {
    const [seam] = flushModule(module('b', 1530, 200, 1000, 1000), fixed, 50).seams;
    expect(seam).toEqual([1000, -300, 1000, 500]);
  });
  test('a quarter turned has its sides the other way; at an angle it has none to share', () => {
    expect(flushModule(module('b', 1270, 0, 1000, 500, 90), fixed, 50)).toMatchObject({ xMm: 1250, yMm: 0 });
    expect(flushModule(module('b', 1520, 0, 1000, 1000, 10), fixed, 50)).toEqual({ xMm: 1520, yMm: 0, seams: [] });
  });
  test('between two, an inner corner is filled', () => {
    const corner = [module('a', 0, 0, 2000, 1000), module('b', -500, 1000, 1000, 1000)];
    const found = flushModule(module('c', 512, 1020, 1000, 1000), corner, 50);
    expect([found.xMm, found.yMm, found.seams.length]).toEqual([500, 1000, 2]);
  });
});

test('law: what is drawn together touches and does not overlap, is drawn no farther than it may, and turns with the riser', () => {
  for (const seed of seeds(400, 40)) {
    const r = numbersFrom(seed);
    const size = () => 500 + Math.floor(r() * 4) * 250;
    const heading = (r() - 0.5) * 360;
    const fixed = module('a', (r() - 0.5) * 4000, (r() - 0.5) * 4000, size(), size(), heading);
    const moved = module('b', 0, 0, size(), size(), heading + 90 * Math.floor(r() * 4));
    const within = 20 + r() * 80;
    // Somewhere round its rim, a little off.
    const [c, s] = [Math.cos(toRadians(heading)), Math.sin(toRadians(heading))];
    const odd = Math.round((moved.headingDeg - heading) / 90) % 2 !== 0;
    const [w, d] = odd ? [moved.depthMm, moved.widthMm] : [moved.widthMm, moved.depthMm];
    const u = (fixed.widthMm + w) / 2 + (r() - 0.2) * within;
    const v = (r() - 0.5) * (fixed.depthMm + d);
    moved.xMm = fixed.xMm + c * u - s * v;
    moved.yMm = fixed.yMm + s * u + c * v;
    const found = flushModule(moved, [fixed], within);
    const shape = (one: typeof moved) =>
      rectangle(one.xMm, one.yMm, one.widthMm, one.depthMm, toRadians(one.headingDeg));
    const put = { ...moved, ...found };
    const far = Math.hypot(found.xMm - moved.xMm, found.yMm - moved.yMm);
    expect(far).toBeLessThanOrEqual(within * Math.SQRT2 + 1e-6);
    if (u - (fixed.widthMm + w) / 2 <= within) {
      expect(far + 1, `seed ${seed}`).toBeGreaterThan(1);
      expect(Math.abs(gapValue(shape(put), shape(fixed)))).toBeLessThan(1e-5);
      // Moved apart by a hair they no longer meet: they touched, and did not overlap.
      const apart = { ...put, xMm: put.xMm + c * 0.01, yMm: put.yMm + s * 0.01 };
      expect(gapValue(shape(apart), shape(fixed))).toBeGreaterThan(0);
      for (const [x0, y0, x1, y1] of found.seams)
        for (const one of [put, fixed])
          for (const [x, y] of [
            [x0, y0],
            [x1, y1],
            [(x0 + x1) / 2, (y0 + y1) / 2],
          ])
            expect(Math.abs(gapValue(shape(one), disc(x, y, 0)))).toBeLessThan(1e-5);
    }
    const again = flushModule(put, [fixed], within);
    expect([again.xMm, again.yMm].map((x) => Math.round(x * 1e3))).toEqual(
      [found.xMm, found.yMm].map((x) => Math.round(x * 1e3)),
    );
    // The whole riser turned by a quarter about the origin.
    const turned = (one: typeof moved) => ({ ...one, xMm: -one.yMm, yMm: one.xMm, headingDeg: one.headingDeg + 90 });
    const other = flushModule(turned(moved), [turned(fixed)], within);
    expect(other.xMm).toBeCloseTo(-found.yMm, 5);
    expect(other.yMm).toBeCloseTo(found.xMm, 5);
  }
});
