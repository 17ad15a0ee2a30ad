import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Bend,
  bendFromChordRise,
  bendFromLengthChord,
  bendFromLengthRadius,
  bendFromLengthRise,
  bulge,
} from '../../../src/geometry/arcs.ts';

const degrees = (radians: number) => (radians * 180) / Math.PI;
const radians = (deg: number) => (deg * Math.PI) / 180;

// Machinery's Handbook, 31st ed., pp. 50, 79, 83; matheass.eu Circular Sections (tests/outside/SOURCES.md).
describe('printed examples', () => {
  test('handbook p. 79, chord 16, rise 6: r = 400/48', () => {
    expect(bendFromChordRise(16, 6).radius).toBeCloseTo(400 / 48, 12);
  });

  test('handbook p. 79, radius 60, rise 8: chord 59.86 printed, tolerance 0.01', () => {
    // angle by the formula of p. 79: rise = r (1 - cos(a / 2))
    const angle = 2 * Math.acos(1 - 8 / 60);
    const { chord, rise } = bendFromLengthRadius(60 * angle, 60);
    expect(rise).toBeCloseTo(8, 12);
    expect(Math.abs(chord - 59.86)).toBeLessThan(0.01);
  });

  test('handbook p. 50, radius 12, depth 2: chord 13.27, angle 67.115 degrees, arc 14.056453', () => {
    const bend = bendFromChordRise(13.266499161421599, 2); // 2 sqrt(12^2 - 10^2), printed 13.27
    expect(bend.chord).toBeCloseTo(13.27, 2);
    expect(bend.radius).toBeCloseTo(12, 12);
    expect(degrees(bend.angle)).toBeCloseTo(67.115, 3);
    expect(bend.length).toBeCloseTo(14.056453, 6);
  });

  test('Circular Sections: chord 21, rise 6', () => {
    const { radius, angle, length } = bendFromChordRise(21, 6);
    expect(radius).toBeCloseTo(12.1875, 12);
    expect(degrees(angle)).toBeCloseTo(118.97953, 5);
    expect(length).toBeCloseTo(25.308373, 6);
  });

  test('Circular Sections: arc 1, 45 degrees', () => {
    const bend = bendFromLengthRadius(1, 1.2732395447351628); // 4 / pi, printed 1.2732395
    expect(degrees(bend.angle)).toBeCloseTo(45, 10);
    expect(bend.chord).toBeCloseTo(0.97449536, 8);
    expect(bend.rise).toBeCloseTo(0.096919589, 9);
  });

  // By hand from the handbook's formulas: angle, arc, chord, rise of a unit circle to 5 places, bulge to 6.
  test.each([
    [10, 0.17453, 0.17431, 0.00381, 0.043661],
    [20, 0.34907, 0.3473, 0.01519, 0.087489],
    [30, 0.5236, 0.51764, 0.03407, 0.131652],
    [45, 0.7854, 0.76537, 0.07612, 0.198912],
    [60, 1.0472, 1.0, 0.13397, 0.267949],
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: as printed in the table
    [90, 1.5708, 1.41421, 0.29289, 0.414214],
    [120, 2.0944, 1.73205, 0.5, 0.57735],
    [150, 2.61799, 1.93185, 0.74118, 0.767327],
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: as printed in the table
    [180, 3.14159, 2.0, 1.0, 1.0],
  ])('arc.unit.%i', (angle, arc, chord, rise, tangent) => {
    const bend = bendFromLengthRadius(radians(angle), 1);
    expect(bend.length).toBeCloseTo(arc, 5);
    expect(bend.chord).toBeCloseTo(chord, 5);
    expect(bend.rise).toBeCloseTo(rise, 5);
    expect(bulge(bend.angle)).toBeCloseTo(tangent, 6);
    // The solved descriptions must come back to the row as well as its five places allow, and to the bend itself.
    expect(bendFromLengthChord(bend.length, bend.chord).radius).toBeCloseTo(1, 9);
    expect(bendFromLengthRise(bend.length, bend.rise).radius).toBeCloseTo(1, 9);
  });
});

/** Largest relative difference of two bends' measures, the angle included. */
function difference(a: Bend, b: Bend): number {
  const pairs = [
    [a.length, b.length],
    [a.radius, b.radius],
    [a.angle, b.angle],
    [a.chord, b.chord],
    [a.rise, b.rise],
  ];
  return Math.max(...pairs.map(([p, q]) => (p === q ? 0 : Math.abs(p - q) / Math.max(Math.abs(p), Math.abs(q)))));
}

describe('every description leads back to the same tube', () => {
  const tubes = fc.record({
    length: fc.double({ min: 50, max: 3000, noNaN: true }),
    angle: fc.double({ min: 0.02, max: 4.5, noNaN: true }),
    share: fc.double({ min: 0, max: 0.45, noNaN: true }),
  });
  const made = ({ length, angle, share }: { length: number; angle: number; share: number }) =>
    bendFromLengthRadius(length, (length * (1 - 2 * share)) / angle, length * share);

  test('from chord and rise', () => {
    fc.assert(
      fc.property(tubes, (tube) => {
        const bend = made(tube);
        // Long straights fold back over the middle past half a turn: a chord below 0 is not a chord.
        fc.pre(bend.chord > 1 && bend.rise > 0.01 && bend.angle < 6);
        expect(difference(bendFromChordRise(bend.chord, bend.rise, bend.straight), bend)).toBeLessThan(1e-8);
      }),
      { seed: 4101, numRuns: 500 },
    );
  });

  test('from length and chord, with the rounding of the chord lost scaled in', () => {
    fc.assert(
      fc.property(tubes, (tube) => {
        const bend = made(tube);
        fc.pre(bend.chord > 1);
        const found = bendFromLengthChord(bend.length, bend.chord, bend.straight);
        // An ulp of the chord is 1e-16 of the length, but the bend is told by length - chord alone.
        const conditioned = 1e-13 * (bend.length / (bend.length - bend.chord));
        expect(difference(found, bend)).toBeLessThan(1e-12 + 10 * conditioned);
      }),
      { seed: 4102, numRuns: 500 },
    );
  });

  test('from length and rise, up to half a turn', () => {
    fc.assert(
      fc.property(tubes, (tube) => {
        const bend = made({ ...tube, angle: Math.min(tube.angle, 2.9) });
        const found = bendFromLengthRise(bend.length, bend.rise, bend.straight);
        expect(difference(found, bend)).toBeLessThan(1e-11);
      }),
      { seed: 4103, numRuns: 500 },
    );
  });

  test('solved bends meet what was asked to 1e-12', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 0.999, noNaN: true }), (part) => {
        const byChord = bendFromLengthChord(1000, 1000 * part, 120);
        const again = bendFromLengthRadius(1000, byChord.radius, 120);
        expect(Math.abs(again.chord - 1000 * part)).toBeLessThan(1e-12 * 1000);
        const byRise = bendFromLengthRise(1000, 300 * part, 60);
        expect(Math.abs(bendFromLengthRadius(1000, byRise.radius, 60).rise - 300 * part)).toBeLessThan(1e-12 * 1000);
      }),
      { seed: 4104 },
    );
  });
});

describe('ends of the range', () => {
  test('a straight tube is a bend of no angle', () => {
    const straight = { length: 800, radius: Number.POSITIVE_INFINITY, angle: 0, chord: 800, rise: 0, straight: 0 };
    expect(bendFromChordRise(800, 0)).toEqual(straight);
    expect(bendFromLengthChord(800, 800)).toEqual(straight);
    expect(bendFromLengthRise(800, 0)).toEqual(straight);
    expect(bendFromLengthRadius(800, Number.POSITIVE_INFINITY)).toEqual(straight);
  });

  test('a ring has no chord, and its rise is its diameter', () => {
    const ring = bendFromChordRise(0, 400);
    expect(ring.angle).toBeCloseTo(2 * Math.PI, 12);
    expect(ring.radius).toBe(200);
    expect(bendFromLengthChord(400 * Math.PI, 0).radius).toBeCloseTo(200, 9);
  });

  test('a bend of a hair keeps its digits: 1000 mm, rise 0.001 mm', () => {
    // rise = length^2 / (8 radius) to the order of angle^2, here 1e-11
    expect(bendFromLengthRise(1000, 0.001).radius / 1.25e8).toBeCloseTo(1, 9);
  });

  test('of two bends with one rise it takes the lesser, and refuses a rise no bend has', () => {
    const { angle } = bendFromLengthRise(1000, 350);
    expect(degrees(angle)).toBeLessThan(267);
    // The largest rise: sin(x)^2 / (2 x) at tan(x) = 2 x, x = 1.16556 (the maximum's condition), 0.362306 of the length.
    expect(bendFromLengthRise(1000, 362.3).radius).toBeGreaterThan(0);
    expect(() => bendFromLengthRise(1000, 362.4)).toThrow('no more than 362.3 mm');
  });

  test.each([
    ['chord beyond the tube', () => bendFromLengthChord(500, 501)],
    ['straights beyond the tube', () => bendFromLengthRadius(500, 300, 251)],
    ['more than a turn', () => bendFromLengthRadius(700, 100)],
    ['no radius', () => bendFromLengthRadius(700, 0)],
    ['not a number', () => bendFromChordRise(Number.NaN, 1)],
    ['nothing at all', () => bendFromChordRise(0, 0)],
  ])('refuses %s', (_, make) => expect(make).toThrow(RangeError));
});
