import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  GRAVITY,
  massCentre,
  pushed,
  slidePush,
  supportLoads,
  supportPoints,
  tipAngle,
  tipMargin,
  tipPush,
} from '../../../src/checks/statics.ts';
import { bentCapsule, capsule, disc, rectangle, roundedPolygon, type Swept } from '../../../src/geometry/shapes.ts';
import { support } from '../../../src/geometry/support.ts';
import { runs } from '../../fixtures/seeds.ts';

describe('tip margin', () => {
  test.each([
    // name                                     contacts                                                  x    y   margin
    ['block on a plane', [rectangle(0, 0, 400, 300, 0)], 0, 0, 150],
    ['block, mass off its middle', [rectangle(0, 0, 400, 300, 0)], 180, 20, 20],
    ['block, mass 3-4-5 beyond a corner', [rectangle(0, 0, 400, 300, 0)], 203, 154, -5],
    ['one disc', [disc(10, 20, 50)], 10, 20, 50],
    ['one disc, off', [disc(0, 0, 50)], 30, 40, 0],
    ['one disc, beyond', [disc(0, 0, 50)], 60, 80, -50],
    ['two T-feet: their width helps', [capsule(0, -300, 0, 300, 19), capsule(900, -300, 900, 300, 19)], 450, 0, 319],
    [
      'two T-feet: beyond the spine, within the foot',
      [capsule(0, -300, 0, 300, 19), capsule(900, -300, 900, 300, 19)],
      -10,
      0,
      9,
    ],
    [
      'tripod: half its radius',
      [0, 1, 2].map((k) => disc(300 * Math.cos((k * 2 * Math.PI) / 3), 300 * Math.sin((k * 2 * Math.PI) / 3), 0)),
      0,
      0,
      150,
    ],
  ] as [string, Swept[], number, number, number][])('%s', (_, contacts, x, y, margin) => {
    expect(tipMargin(contacts, x, y)?.marginMm).toBeCloseTo(margin, 9);
  });

  test('no contacts, no margin', () => expect(tipMargin([], 0, 0)).toBeNull());

  test('law: no direction has less room, and the worst direction has exactly that', () => {
    const coordinate = fc.integer({ min: -500, max: 500 });
    const shape = fc.oneof(
      fc.tuple(coordinate, coordinate, fc.integer({ min: 0, max: 60 })).map(([x, y, r]) => disc(x, y, r)),
      fc
        .tuple(coordinate, coordinate, coordinate, coordinate, fc.integer({ min: 0, max: 40 }))
        .map(([a, b, c, d, r]) => capsule(a, b, c, d, r)),
      fc
        .tuple(coordinate, coordinate, fc.integer({ min: 50, max: 400 }))
        .map(([x, y, r]) => bentCapsule(x, y, r, 1, 2, 19)),
    );
    fc.assert(
      fc.property(fc.array(shape, { minLength: 1, maxLength: 8 }), coordinate, coordinate, (contacts, x, y) => {
        const worst = tipMargin(contacts, x, y);
        if (!worst) throw new Error('no margin');
        const room = (angle: number) => {
          const ux = Math.cos(angle);
          const uy = Math.sin(angle);
          return Math.max(...contacts.map((each) => support(each, ux, uy))) - x * ux - y * uy;
        };
        expect(room(worst.directionRad)).toBeCloseTo(worst.marginMm, 8);
        for (let k = 0; k < 360; k++) expect(room((k * Math.PI) / 180)).toBeGreaterThanOrEqual(worst.marginMm - 1e-9);
      }),
      runs(300),
    );
  });
});

describe('block on a plane, closed forms', () => {
  test('tips at atan(half base / centre height); slides at atan(friction): the smaller goes first', () => {
    expect(tipAngle(150, 150)).toBeCloseTo(Math.PI / 4, 14);
    expect(tipAngle(-10, 500)).toBeLessThan(0);
    expect(tipPush(20, 150, 600)).toBeCloseTo((20 * GRAVITY) / 4, 12);
    expect(tipPush(20, -1, 600)).toBe(0);
    expect(slidePush(20, 0.5)).toBeCloseTo(10 * GRAVITY, 12);
  });

  test('the turnover height parts sliding from tipping', () => {
    const { turnoverHeightMm } = pushed(20, 150, 600, 0.5);
    expect(turnoverHeightMm).toBe(300);
    expect(pushed(20, 150, 299, 0.5).first).toBe('slides');
    expect(pushed(20, 150, 301, 0.5).first).toBe('tips');
    expect(pushed(20, 150, 301, 0).first).toBe('slides');
  });

  test('mass centre: of equal masses the middle; of nothing none', () => {
    expect(
      massCentre([
        { massKg: 2, at: [0, 0, 0] },
        { massKg: 6, at: [100, -40, 8] },
      ]),
    ).toEqual({ massKg: 8, at: [75, -30, 6] });
    expect(massCentre([])).toBeNull();
    expect(massCentre([{ massKg: 0, at: [1, 1, 1] }])).toBeNull();
  });
});

describe('loads on feet', () => {
  const square: [number, number][] = [
    [0, 0],
    [400, 0],
    [400, 400],
    [0, 400],
  ];
  test("four equal feet under the middle share evenly; over a side's middle the other side lifts", () => {
    for (const load of supportLoads(square, 100, 200, 200) ?? []) expect(load).toBeCloseTo(25, 7);
    // Over a side's middle: that side carries all, the others lift.
    expect(supportLoads(square, 100, 200, 0)?.map((n) => Math.round(n * 1e6) / 1e6)).toEqual([50, 50, 0, 0]);
  });

  test('a rigid plate on four springs, load a quarter off: linear in place', () => {
    const loads = supportLoads(square, 100, 250, 200) ?? [];
    expect(loads[0]).toBeCloseTo(18.75, 6);
    expect(loads[1]).toBeCloseTo(31.25, 6);
  });

  test('off its feet: no answer; no feet: none', () => {
    expect(supportLoads(square, 100, 500, 200)).toBeNull();
    expect(supportLoads([], 100, 0, 0)).toBeNull();
    expect(supportLoads([[0, 0]], 100, 0, 0)).toEqual([100]);
  });

  test('where a contact presses', () => {
    expect(supportPoints(capsule(0, 0, 5, 0, 1))).toEqual([
      [0, 0],
      [5, 0],
    ]);
    expect(supportPoints(roundedPolygon([0, 0, 4, 0, 0, 4], 1))).toHaveLength(3);
  });

  test('three feet: the three equations of equilibrium, and nothing else', () => {
    const c = fc.integer({ min: -500, max: 500 });
    fc.assert(
      fc.property(
        c,
        c,
        c,
        c,
        c,
        c,
        fc.integer({ min: 1, max: 98 }),
        fc.integer({ min: 1, max: 98 }),
        (ax, ay, bx, by, cx, cy, u, v) => {
          const twice = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
          fc.pre(Math.abs(twice) > 20_000 && u + v < 100);
          const share = [u / 100, v / 100, 1 - (u + v) / 100];
          const x = share[0] * ax + share[1] * bx + share[2] * cx;
          const y = share[0] * ay + share[1] * by + share[2] * cy;
          const loads =
            supportLoads(
              [
                [ax, ay],
                [bx, by],
                [cx, cy],
              ],
              1,
              x,
              y,
            ) ?? [];
          share.forEach((s, k) => {
            expect(loads[k]).toBeCloseTo(s, 7);
          });
        },
      ),
      runs(300),
    );
  });

  test('many feet: loads push, sum to the load, balance its place, and lie on one plane where they push', () => {
    const c = fc.integer({ min: -500, max: 500 });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(c, c), { minLength: 4, maxLength: 12 }),
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 12, maxLength: 12 }),
        (feet, weights) => {
          const total = feet.reduce((sum, _, k) => sum + weights[k], 0);
          const x = feet.reduce((sum, [fx], k) => sum + fx * weights[k], 0) / total;
          const y = feet.reduce((sum, [, fy], k) => sum + fy * weights[k], 0) / total;
          const loads = supportLoads(feet, 100, x, y);
          if (!loads) throw new Error('the load is over its feet');
          const near = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThan(1e-4);
          near(
            loads.reduce((sum, n) => sum + n, 0),
            100,
          );
          near(loads.reduce((sum, n, k) => sum + n * feet[k][0], 0) / 100, x);
          near(loads.reduce((sum, n, k) => sum + n * feet[k][1], 0) / 100, y);
          for (const n of loads) expect(n).toBeGreaterThanOrEqual(0);
        },
      ),
      runs(300),
    );
  });
});
