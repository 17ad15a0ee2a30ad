import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gap, gapValue, nearestOnCores } from '../../../src/geometry/gap.ts';
import { bentCapsule, capsule, disc, rectangle, roundedPolygon, type Swept } from '../../../src/geometry/shapes.ts';
import { runs } from '../../fixtures/seeds.ts';
import { descent, distanceTo, KINDS, mirrored, moved, placeOn, scaled, shapes } from './gapShapes.ts';

const half = Math.PI;
const full = 2 * Math.PI;
const box = (x: number, y: number, w: number, d: number, r = 0) => rectangle(x, y, w, d, 0, r);

/** The gap, the same the other way round, and nearest points that are a gap apart and on the outlines. */
function expectGap(a: Swept, b: Swept, mm: number, meeting = false): void {
  const there = gap(a, b);
  const back = gap(b, a);
  expect(there.gap).toBeCloseTo(mm, 10);
  expect(back.gap).toBeCloseTo(mm, 10);
  expect([there.meeting, back.meeting]).toEqual([meeting, meeting]);
  expect(gapValue(a, b)).toBe(there.gap);
  for (const { ax, ay, bx, by } of [there, back]) {
    if (meeting) expect([ax, ay]).toEqual([bx, by]);
    else expect(Math.hypot(bx - ax, by - ay)).toBeCloseTo(Math.abs(mm), 9);
  }
  if (meeting) {
    // The shared point is on both cores.
    for (const { core } of [a, b]) expect(gap({ core, radius: 0 }, disc(there.ax, there.ay, 0)).gap).toBeCloseTo(0, 9);
  } else {
    expect(gap({ core: a.core, radius: 0 }, disc(there.ax, there.ay, 0)).gap).toBeCloseTo(a.radius, 9);
    expect(gap({ core: b.core, radius: 0 }, disc(there.bx, there.by, 0)).gap).toBeCloseTo(b.radius, 9);
  }
}

// Solved by hand: 3-4-5 triangles, right angles and sums of radii.
describe('solved by hand', () => {
  test.each<[string, Swept, Swept, number, boolean]>([
    ['discs apart', disc(0, 0, 2), disc(3, 4, 1), 2, false],
    ['discs touching', disc(0, 0, 2), disc(5, 0, 3), 0, false],
    ['discs overlapping', disc(0, 0, 4), disc(3, 4, 3), -2, false],
    ['discs on one centre', disc(1, 1, 4), disc(1, 1, 3), -7, true],
    ['disc beside a tube', disc(5, 9, 2), capsule(0, 0, 10, 0, 3), 4, false],
    ['disc past a tube end', disc(13, 4, 1), capsule(0, 0, 10, 0, 1), 3, false],
    ['disc in line with a tube', disc(15, 0, 1), capsule(0, 0, 10, 0, 1), 3, false],
    ['disc centre on a spine', disc(4, 0, 1), capsule(0, 0, 10, 0, 1), -2, true],
    ['disc centre on a spine end', disc(10, 0, 1), capsule(0, 0, 10, 0, 1), -2, true],
    ['tubes 3-4-5 between ends', capsule(0, 0, 10, 0, 1), capsule(13, 4, 20, 4, 1), 3, false],
    ['tubes parallel', capsule(0, 0, 10, 0, 1), capsule(5, 6, 15, 6, 2), 3, false],
    ['spines crossing', capsule(-1, 0, 1, 0, 0.5), capsule(0, -1, 0, 1, 0.25), -0.75, true],
    ['spines in a T', capsule(0, 0, 10, 0, 1), capsule(5, 0, 5, 9, 1), -2, true],
    ['spines end to end', capsule(0, 0, 10, 0, 1), capsule(10, 0, 14, 3, 1), -2, true],
    ['spines collinear, apart', capsule(0, 0, 10, 0, 1), capsule(14, 0, 20, 0, 1), 2, false],
    ['spines collinear, touching', capsule(0, 0, 10, 0, 1), capsule(10, 0, 20, 0, 1), -2, true],
    ['spines collinear, overlapping', capsule(0, 0, 10, 0, 1), capsule(5, 0, 20, 0, 1), -2, true],
    ['one spine within the other', capsule(0, 0, 10, 0, 1), capsule(3, 0, 4, 0, 1), -2, true],
    ['spines the same', capsule(0, 0, 10, 0, 1), capsule(10, 0, 0, 0, 1), -2, true],
    ['disc outside a bend', disc(0, 20, 1), bentCapsule(0, 0, 10, 0, half, 2), 7, false],
    ['disc inside a bend', disc(0, 4, 1), bentCapsule(0, 0, 10, 0, half, 2), 3, false],
    ['disc at the centre of a bend', disc(0, 0, 1), bentCapsule(0, 0, 10, 0, half, 2), 7, false],
    ['disc behind a bend: its ends', disc(0, -24, 1), bentCapsule(0, 0, 10, 0, half, 2), 23, false],
    ['disc centre on a bend', disc(0, 10, 1), bentCapsule(0, 0, 10, 0, half, 2), -3, true],
    [
      'disc in the mouth of a nearly closed ring',
      disc(14, 0, 1),
      bentCapsule(0, 0, 10, 0.6, full - 1.2, 0),
      Math.hypot(14 - 10 * Math.cos(0.6), 10 * Math.sin(0.6)) - 1,
      false,
    ],
    ['tube past a bend, tangent direction', capsule(-50, 15, 50, 15, 1), bentCapsule(0, 0, 10, 0, half, 1), 3, false],
    ['tube under a bend: its ends', capsule(-50, -5, 50, -5, 1), bentCapsule(0, 0, 10, 0, half, 1), 3, false],
    ['spine tangent to a bend', capsule(-50, 10, 50, 10, 1), bentCapsule(0, 0, 10, 0, half, 1), -2, true],
    ['spine across a bend', capsule(0, 0, 0, 30, 1), bentCapsule(0, 0, 10, 0, half, 1), -2, true],
    ['spine across a bend twice', capsule(-50, 6, 50, 6, 1), bentCapsule(0, 0, 10, 0, half, 1), -2, true],
    ['spine through the missing half', capsule(0, 0, 0, -30, 1), bentCapsule(0, 0, 10, 0, half, 1), 8, false],
    ['spine within a ring', capsule(-3, 0, 3, 0, 1), bentCapsule(0, 0, 10, 0, full, 1), 5, false],
    ['bends facing', bentCapsule(0, 0, 10, 0, half, 1), bentCapsule(0, 30, 10, half, half, 1), 8, false],
    [
      'bends back to back: their ends',
      bentCapsule(0, 0, 10, 0, half, 1),
      bentCapsule(0, -30, 10, half, half, 1),
      28,
      false,
    ],
    ['bends side by side', bentCapsule(0, 0, 10, 0, half, 1), bentCapsule(24, 0, 10, 0, half, 1), 2, false],
    ['bends crossing', bentCapsule(0, 0, 10, 0, half, 1), bentCapsule(0, 15, 10, half, half, 1), -2, true],
    ['bends touching outside', bentCapsule(0, 0, 10, 0, half, 1), bentCapsule(0, 20, 10, half, half, 1), -2, true],
    ['bends touching inside', bentCapsule(0, 0, 10, 0, half, 1), bentCapsule(0, 4, 6, 0, half, 1), -2, true],
    [
      'bends on one centre, sharing directions',
      bentCapsule(0, 0, 10, 0, 2, 1),
      bentCapsule(0, 0, 16, 1, 2, 1),
      4,
      false,
    ],
    [
      'bends on one centre, back to back',
      bentCapsule(0, 0, 3, half / 2, half, 0),
      bentCapsule(0, 0, 4, -half / 2, half, 0),
      1,
      false,
    ],
    [
      'bends on one centre, no direction shared',
      bentCapsule(0, 0, 3, 0, half / 2, 0),
      bentCapsule(0, 0, 4, half, half / 2, 0),
      5,
      false,
    ],
    [
      'bends on one circle, apart',
      bentCapsule(0, 0, 10, 0, half / 2, 1),
      bentCapsule(0, 0, 10, half, half / 2, 1),
      10 * Math.SQRT2 - 2,
      false,
    ],
    [
      'bends on one circle, touching',
      bentCapsule(0, 0, 10, 0, half / 2, 1),
      bentCapsule(0, 0, 10, half / 2, half / 2, 1),
      -2,
      true,
    ],
    ['bends on one circle, overlapping', bentCapsule(0, 0, 10, 0, 2, 1), bentCapsule(0, 0, 10, 1, 2, 1), -2, true],
    ['bend within another of one circle', bentCapsule(0, 0, 10, 0, 3, 1), bentCapsule(0, 0, 10, 1, 1, 1), -2, true],
    ['ring within a ring', bentCapsule(0, 0, 10, 0, full, 1), bentCapsule(2, 0, 4, 0, full, 1), 2, false],
    ['ring around a ring on one centre', bentCapsule(0, 0, 10, 1, full, 1), bentCapsule(0, 0, 4, 2, full, 1), 4, false],
    [
      // The right ring's end, looking past the left one's end: its distance to the left centre, less the radius.
      'nearly closed rings, mouth in mouth',
      bentCapsule(0, 0, 10, 0.1, full - 0.2, 1),
      bentCapsule(30, 0, 10, half + 0.3, full - 0.6, 1),
      Math.hypot(30 - 10 * Math.cos(0.3), 10 * Math.sin(0.3)) - 12,
      false,
    ],
    ['bend smaller than its tube', bentCapsule(0, 0, 2, 0, half, 5), disc(0, 20, 1), 12, false],
    [
      'two bends smaller than their tubes',
      bentCapsule(0, 0, 2, 0, half, 5),
      bentCapsule(0, 9, 2, half, half, 5),
      -5,
      false,
    ],
    ['disc beside a box', disc(0, 10, 2), box(0, 0, 10, 10), 3, false],
    ['disc off a corner', disc(8, 9, 2), box(0, 0, 10, 10), 3, false],
    ['disc centre in a box', disc(1, 1, 2), box(0, 0, 10, 10), -2, true],
    ['disc centre on an edge', disc(5, 1, 2), box(0, 0, 10, 10), -2, true],
    ['disc centre on a corner', disc(5, 5, 2), box(0, 0, 10, 10, 1), -3, true],
    ['tube beside a box', capsule(9, -20, 9, 20, 1), box(0, 0, 10, 10), 3, false],
    ['tube end off a corner', capsule(8, 9, 20, 30, 1), box(0, 0, 10, 10, 1), 3, false],
    ['spine across a box', capsule(-20, 1, 20, 1, 1), box(0, 0, 10, 10, 1), -2, true],
    ['spine within a box', capsule(-2, 1, 2, 1, 1), box(0, 0, 10, 10), -1, true],
    ['spine along an edge', capsule(-2, 5, 20, 5, 1), box(0, 0, 10, 10), -1, true],
    ['spine touching a corner', capsule(0, 10, 10, 0, 1), box(0, 0, 10, 10), -1, true],
    ['bend beside a box', bentCapsule(0, -14, 5, 0, half, 1), box(0, 0, 10, 10), 3, false],
    ['ring around a box', bentCapsule(0, 0, 20, 0, full, 1), box(0, 0, 18, 24), 4, false],
    ['bend within a box', bentCapsule(0, 0, 2, 0, half, 1), box(0, 0, 10, 10), -1, true],
    ['bend tangent to an edge', bentCapsule(0, -10, 5, 0, half, 1), box(0, 0, 10, 10), -1, true],
    ['bend across a corner', bentCapsule(5, 5, 1, 0, full, 1), box(0, 0, 10, 10), -1, true],
    ['boxes apart', box(0, 0, 10, 10), box(13, 0, 10, 10, 1), 2, false],
    ['boxes corner to corner', box(0, 0, 10, 10), box(13, 14, 10, 10, 1), 4, false],
    ['boxes sharing an edge', box(0, 0, 10, 10), box(10, 0, 10, 10), 0, true],
    ['boxes sharing a corner', box(0, 0, 10, 10), box(10, 10, 10, 10, 1), -1, true],
    ['box within a box', box(0, 0, 10, 10), box(1, 1, 4, 4, 1), -1, true],
    ['boxes in a cross', box(0, 0, 30, 4), box(0, 0, 4, 30), 0, true],
    [
      'triangle off an edge',
      roundedPolygon([0, 0, 3, 0, 0, 4], 0),
      disc(3 + 1.5, 4, 0),
      (4.5 * 4 + 4 * 3 - 12) / 5,
      false,
    ],
  ])('%s', (_, a, b, mm, meeting) => expectGap(a, b, mm, meeting));
});

test('crossing is decided exactly: a spine a hair from a corner', () => {
  // The line through (0, 0) and (3, 1) misses (0.3, 0.1) by the rounding of 0.3 and 0.1 alone.
  const line = capsule(0, 0, 3, 1, 0);
  const at = capsule(0.3, 0.1, 0.3, 5, 0);
  const exact = BigInt(Math.round(0.1 * 2 ** 56)) * 3n - BigInt(Math.round(0.3 * 2 ** 54)) * 4n;
  expect(exact > 0n).toBe(true); // 0.1 stored is more than a third of 0.3 stored: the tube starts above the line
  expect(gap(line, at).meeting).toBe(false);
  expect(gap(line, capsule(0.3, 0.1, 0.3, -5, 0)).meeting).toBe(true);
});

test('at 100 m the promise still holds: a bend of 100 m and a tube beside it', () => {
  const bend = bentCapsule(-1e5, 0, 1e5, -0.01, 0.02, 19);
  expect(Math.abs(gap(bend, disc(60, 0, 11)).gap - 30)).toBeLessThan(1e-9);
  expect(Math.abs(gap(bend, capsule(60, -50, 60, 50, 11)).gap - 30)).toBeLessThan(1e-9);
});

const pairsOfKinds = Object.keys(KINDS).flatMap((a, i, all) => all.slice(i).map((b) => [a, b] as const));

describe.each(pairsOfKinds)('laws for %s and %s', (kindA, kindB) => {
  const a = KINDS[kindA as keyof typeof KINDS]();
  const b = KINDS[kindB as keyof typeof KINDS]();
  const cases = runs(200);
  const motion = fc.record({
    angle: fc.double({ min: -7, max: 7, noNaN: true }),
    dx: fc.double({ min: -3000, max: 3000, noNaN: true }),
    dy: fc.double({ min: -3000, max: 3000, noNaN: true }),
  });

  test('turning, shifting, mirroring, exchanging and scaling change nothing', () => {
    fc.assert(
      fc.property(a, b, motion, (p, q, m) => {
        const before = gapValue(p, q);
        expect(gapValue(q, p)).toBeCloseTo(before, 9);
        expect(Math.abs(gapValue(moved(p, m), moved(q, m)) - before)).toBeLessThan(1e-9);
        expect(Math.abs(gapValue(mirrored(p), mirrored(q)) - before)).toBeLessThan(1e-9);
        expect(Math.abs(gapValue(scaled(p, 2.5), scaled(q, 2.5)) - 2.5 * before)).toBeLessThan(2.5e-9);
      }),
      cases,
    );
  });

  test('the points are on the cores, and no point of either core is nearer than they are', () => {
    fc.assert(
      fc.property(a, b, fc.double({ min: 0, max: 1, noNaN: true }), (p, q, part) => {
        const near = nearestOnCores(p, q);
        const bare = { core: q.core, radius: 0 };
        expect(Math.abs(gapValue({ core: p.core, radius: 0 }, disc(near.ax, near.ay, 0)))).toBeLessThan(1e-9);
        expect(Math.abs(gapValue(bare, disc(near.bx, near.by, 0)))).toBeLessThan(1e-9);
        // Any point of one core, against the whole of the other: a bound without sampling both.
        const [x, y] = placeOn(p, part);
        expect(gapValue(disc(x, y, 0), bare)).toBeGreaterThan(near.distance - 1e-9);
        // The same by formulas of the test's own: both points on their cores, and no way downhill to anything nearer.
        expect(distanceTo(p, near.ax, near.ay)).toBeLessThan(1e-9);
        expect(distanceTo(q, near.bx, near.by)).toBeLessThan(1e-9);
        expect(Math.hypot(near.bx - near.ax, near.by - near.ay)).toBeCloseTo(near.distance, 9);
        expect(descent(p, q)).toBeGreaterThan(near.distance - 1e-9);
      }),
      cases,
    );
  });
});

test('growing a radius shrinks every gap by as much', () => {
  fc.assert(
    fc.property(shapes(), shapes(), fc.double({ min: 0, max: 200, noNaN: true }), (a, b, more) => {
      expect(gapValue({ ...a, radius: a.radius + more }, b)).toBeCloseTo(gapValue(a, b) - more, 9);
    }),
    runs(500),
  );
});
