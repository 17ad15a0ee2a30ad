import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { alongAtChord, type CentreLine, lineLength, pointAlong, tubeAlong } from '../../../src/geometry/arcsLine.ts';
import { gap } from '../../../src/geometry/gap.ts';
import { disc } from '../../../src/geometry/shapes.ts';
import { runs } from '../../fixtures/seeds.ts';

const hook: CentreLine = { x: 10, y: 20, heading: 0, before: 100, radius: 200, angle: Math.PI / 2, after: 50 };
const lines = fc.record({
  x: fc.double({ min: -2000, max: 2000, noNaN: true }),
  y: fc.double({ min: -2000, max: 2000, noNaN: true }),
  heading: fc.double({ min: -7, max: 7, noNaN: true }),
  before: fc.oneof(fc.constant(0), fc.double({ min: 1, max: 800, noNaN: true })),
  radius: fc.double({ min: 20, max: 3000, noNaN: true }),
  angle: fc.double({ min: -6.2, max: 6.2, noNaN: true }),
  after: fc.oneof(fc.constant(0), fc.double({ min: 1, max: 800, noNaN: true })),
});

function expectPlace(found: { x: number; y: number; heading: number }, x: number, y: number, heading: number): void {
  expect(found.x).toBeCloseTo(x, 9);
  expect(found.y).toBeCloseTo(y, 9);
  expect(found.heading).toBeCloseTo(heading, 12);
}

describe('places along a line', () => {
  test('a quarter bend to the left between two straights', () => {
    expect(lineLength(hook)).toBeCloseTo(150 + 100 * Math.PI, 10);
    expectPlace(pointAlong(hook, 0), 10, 20, 0);
    expectPlace(pointAlong(hook, 100), 110, 20, 0);
    expectPlace(pointAlong(hook, 100 + 50 * Math.PI), 110 + 200 * Math.SQRT1_2, 220 - 200 * Math.SQRT1_2, Math.PI / 4);
    expectPlace(pointAlong(hook, lineLength(hook)), 310, 270, Math.PI / 2);
  });

  test('to the right, and held to the ends', () => {
    const right = { ...hook, angle: -Math.PI / 2 };
    expectPlace(pointAlong(right, 1e6), 310, -230, -Math.PI / 2);
    expectPlace(pointAlong(right, -5), 10, 20, 0);
  });

  test('a straight bar may give an infinite radius', () => {
    const bar = { ...hook, radius: Number.POSITIVE_INFINITY, angle: 0 };
    expectPlace(pointAlong(bar, 120), 130, 20, 0);
    expect(alongAtChord(bar, 30, 90)).toBeCloseTo(120, 12);
  });

  test('the tube swept along a line touches a disc on every place of the line', () => {
    fc.assert(
      fc.property(lines, fc.double({ min: 0, max: 1, noNaN: true }), (line, part) => {
        const { x, y } = pointAlong(line, part * lineLength(line));
        // The nearest core is at the place itself, so the gap is the flag or within rounding of it.
        const nearest = Math.min(...tubeAlong(line, 19).map((shape) => gap(shape, disc(x, y, 1)).gap));
        expect(Math.abs(nearest + 20)).toBeLessThan(1e-9);
      }),
      runs(500),
    );
  });
});

describe('where the second leg goes', () => {
  test('round a half turn the chord is the diameter', () => {
    const arch = { ...hook, before: 0, after: 0, angle: Math.PI };
    expect(alongAtChord(arch, 0, 400)).toBeCloseTo(200 * Math.PI, 4);
    expect(alongAtChord(arch, 0, 200)).toBeCloseTo((200 * Math.PI) / 3, 9);
    expect(alongAtChord(arch, 0, 400.001)).toBeNull();
  });

  test('the place found is at the chord, and nothing before it is farther', () => {
    fc.assert(
      fc.property(
        lines,
        fc.double({ min: 0, max: 0.99, noNaN: true }),
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        (line, start, part) => {
          const length = lineLength(line);
          const from = start * length;
          const chord = part * (length - from);
          fc.pre(chord > 1e-3);
          const q = pointAlong(line, from);
          const far = (along: number) => Math.hypot(pointAlong(line, along).x - q.x, pointAlong(line, along).y - q.y);
          const found = alongAtChord(line, from, chord);
          const until = found ?? length;
          if (found !== null) expect(Math.abs(far(found) - chord)).toBeLessThan(1e-8);
          for (let i = 0; i <= 200; i++) {
            const along = from + ((until - from) * i) / 200;
            expect(far(along)).toBeLessThan(chord + 1e-8);
          }
        },
      ),
      runs(500),
    );
  });
});
