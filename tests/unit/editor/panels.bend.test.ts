/** The three views of a bend agree with each other and with the tube's cut length. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bendFor, bendViews } from '../../../src/editor/panels/inspector/bendViews.ts';

const tube = (cutLengthMm: number, radiusMm: number, straightEndsMm = 0) => ({
  cutLengthMm,
  bend: { radiusMm, straightEndsMm, side: 'left' as const },
});

describe('views', () => {
  test('a half circle: radius, rise and half the chord are one', () => {
    const views = bendViews(tube(Math.PI * 400, 400))!;
    expect(views.riseMm).toBeCloseTo(400, 9);
    expect(views.chordMm).toBeCloseTo(800, 9);
    expect(views.angleDeg).toBeCloseTo(180, 9);
  });

  // 60 degrees: chord = R, rise = R (1 - cos 30).
  test('a sixth of a turn has a chord of its radius', () => {
    const views = bendViews(tube((Math.PI / 3) * 900, 900))!;
    expect(views.chordMm).toBeCloseTo(900, 9);
    expect(views.riseMm).toBeCloseTo(900 * (1 - Math.sqrt(3) / 2), 9);
  });

  test('a straight tube has none', () => expect(bendViews({ cutLengthMm: 1000, bend: null })).toBeNull());
  test('numbers that make no tube have none', () => expect(bendViews(tube(1000, 50))).toBeNull());
});

test('law: setting a view to what it shows changes nothing', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 400, max: 2000, noNaN: true }),
      fc.double({ min: 400, max: 5000, noNaN: true }),
      fc.double({ min: 0, max: 150, noNaN: true }),
      (length, radius, straight) => {
        const bent = tube(length, radius, straight);
        // Up to a half turn rise and chord decide the bend.
        fc.pre((length - 2 * straight) / radius < Math.PI);
        const views = bendViews(bent)!;
        for (const [view, mm] of [
          ['radius', views.radiusMm],
          ['rise', views.riseMm],
          ['chord', views.chordMm],
        ] as const) {
          const made = bendFor(bent, view, mm);
          expect(made.ok && Math.abs(made.bend.radiusMm / radius - 1), view).toBeLessThan(1e-7);
          if (made.ok) expect({ ...made.bend, radiusMm: 0 }).toEqual({ ...bent.bend, radiusMm: 0 });
        }
      },
    ),
    { seed: 20, numRuns: 300 },
  );
});

describe('refusals', () => {
  test.each([
    ['a chord longer than the tube', tube(1000, 800), 'chord', 1001, 'A chord cannot be longer than the tube.'],
    ['a chord as long as the tube', tube(1000, 800), 'chord', 1000, 'That is a straight bar. Use “Straighten” for it.'],
    ['no rise', tube(1000, 800), 'rise', 0, 'That is a straight bar. Use “Straighten” for it.'],
    ['a radius the plan cannot hold', tube(1000, 800), 'rise', 1, 'That needs a bend radius of 125000 mm'],
    [
      'more than a turn',
      tube(1000, 800),
      'radius',
      100,
      'A tube this long would bend past a full turn at that radius.',
    ],
    ['a straight bar', { cutLengthMm: 1000, bend: null }, 'radius', 500, 'This bar is straight. Bend it first.'],
  ] as const)('%s', (_, bent, view, mm, sentence) => {
    const made = bendFor(bent, view, mm);
    expect(made.ok).toBe(false);
    if (!made.ok) expect(made.sentence).toContain(sentence);
  });
});
