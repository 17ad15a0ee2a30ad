import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lineLength, pointAlong } from '../../../src/geometry/arcsLine.ts';
import { type BarFrame, barLine, legDistance, rackFrame } from '../../../src/plan/rackFrame.ts';
import type { Rack } from '../../../src/plan/schema.ts';
import { bar, chain, rack } from '../../fixtures/plans.ts';

/** A half turn of radius 1000 / pi * ... : cut length pi * 300, so that the ends are 600 apart. */
const halfTurn = (side: 'left' | 'right') => ({
  ...bar('b1', 300 * Math.PI),
  overhangMm: 0,
  bend: { radiusMm: 300, straightEndsMm: 0, side },
});

function withBars(first: Rack, ...bars: Rack['spans'][0]['bars']): Rack {
  return { ...first, spans: [{ turnDeg: 0, farOverhangMm: 0, bars }] };
}

const barPoint = ({ line }: BarFrame, s: number) => pointAlong(line, s);

function expectPoint(point: { x: number; y: number }, x: number, y: number): void {
  expect(point.x).toBeCloseTo(x, 9);
  expect(point.y).toBeCloseTo(y, 9);
}

describe('straight racks', () => {
  test('RF-1 legs stand the tube less both overhangs apart, along the heading', () => {
    const frame = rackFrame(rack('r', 'R', 100, 200, 90));
    expect(frame.problems).toEqual([]);
    expect(frame.chords).toEqual([900]);
    expectPoint(frame.legs[0], 100, 200);
    expectPoint(frame.legs[1], 100, 1100);
    const [only] = frame.bars;
    expectPoint(barPoint(only, 0), 100, 150);
    expectPoint(barPoint(only, only.s0), 100, 200);
    expectPoint(barPoint(only, only.s1!), 100, 1100);
    expectPoint(barPoint(only, 1000), 100, 1150);
    expect(only.farOverhangMm).toBe(50);
  });

  test('RF-2 feet are headed relative to the rack', () => {
    const { legs } = rackFrame(rack('r', 'R', 0, 0, 30));
    expect(legs.map((each) => each.headingRad)).toEqual(
      [(Math.PI * 120) / 180, (Math.PI * 120) / 180].map((v) => expect.closeTo(v, 12)),
    );
  });

  test('RF-3 joint angles add up along a chain; a first joint angle counts for nothing', () => {
    const right = chain('r', 'R');
    const square = {
      ...right,
      place: { xMm: 0, yMm: 0, headingDeg: 0 },
      spans: [
        { ...right.spans[0], turnDeg: 77 },
        { ...right.spans[1], turnDeg: -90 },
      ],
    };
    const frame = rackFrame(square);
    expectPoint(frame.legs[1], 900, 0);
    expectPoint(frame.legs[2], 900, -690);
  });

  test('RF-4 a second bar starts at its own overhang and what is left stands out beyond the other leg', () => {
    const frame = rackFrame(chain('r', 'R'));
    const second = frame.bars[1];
    expect(second.s0).toBe(50);
    expect(second.s1).toBeCloseTo(950, 9);
    expect(second.farOverhangMm).toBeCloseTo(150, 9);
    expectPoint(barPoint(second, 950), frame.legs[1].x, frame.legs[1].y);
  });
});

describe('curved racks', () => {
  test('RF-5 a half turn of radius 300 puts the legs a diameter apart, bowed to the named side', () => {
    const left = rackFrame(withBars(rack('r', 'R', 0, 0, 0), halfTurn('left')));
    expect(left.chords[0]).toBeCloseTo(600, 9);
    expectPoint(left.legs[1], 600, 0);
    // Left of the direction from the first leg to the second, which runs along +x, is +y.
    expectPoint(barPoint(left.bars[0], 150 * Math.PI), 300, 300);
    const right = rackFrame(withBars(rack('r', 'R', 0, 0, 0), halfTurn('right')));
    expectPoint(barPoint(right.bars[0], 150 * Math.PI), 300, -300);
  });

  test('RF-5 straight ends: a quarter bend between two straights of 100', () => {
    // Radius 200, quarter turn: the ends are at (0, 0) and (300, 300) in the tube's own frame.
    const bent = {
      ...bar('b1', 200 + 100 * Math.PI),
      overhangMm: 0,
      bend: { radiusMm: 200, straightEndsMm: 100, side: 'right' as const },
    };
    expect(legDistance(bent, 0)).toBeCloseTo(300 * Math.SQRT2, 9);
    const frame = rackFrame(withBars(rack('r', 'R', 0, 0, 45), bent));
    expectPoint(frame.legs[1], 300, 300);
    expectPoint(barPoint(frame.bars[0], 100), 100, 0);
  });

  test('RF-4 a straight second bar under a curved one reaches across the chord', () => {
    const frame = rackFrame(
      withBars(rack('r', 'R', 0, 0, 0), halfTurn('left'), { ...bar('b2', 800), overhangMm: 100 }),
    );
    expect(frame.bars[1].s1).toBeCloseTo(700, 9);
    expect(frame.bars[1].farOverhangMm).toBeCloseTo(100, 9);
  });

  test('RF-6 laws: bars pass through both legs, keep their cut length, and turn with the rack', () => {
    const bend = fc.record({
      radiusMm: fc.double({ min: 400, max: 5000, noNaN: true }),
      straightEndsMm: fc.double({ min: 0, max: 300, noNaN: true }),
      side: fc.constantFrom('left' as const, 'right' as const),
    });
    const made = fc.record({
      length: fc.double({ min: 700, max: 2200, noNaN: true }),
      overhang: fc.double({ min: 0, max: 200, noNaN: true }),
      bend: fc.option(bend),
    });
    fc.assert(
      fc.property(made, made, fc.double({ min: -180, max: 180, noNaN: true }), (a, b, headingDeg) => {
        const bars = [a, b].map((each, i) => ({
          ...bar(`b${i}`, each.length),
          overhangMm: each.overhang,
          bend: each.bend,
        }));
        const one = { ...withBars(rack('r', 'R', 10, -20, headingDeg), ...bars) };
        const frame = rackFrame(one);
        const [from, to] = frame.legs;
        expect(Math.atan2(to.y - from.y, to.x - from.x)).toBeCloseTo((headingDeg * Math.PI) / 180, 9);
        for (const each of frame.bars) {
          expect(lineLength(each.line)).toBeCloseTo(each.lengthMm, 6);
          expectPoint(barPoint(each, each.s0), from.x, from.y);
          if (each.s1 === null)
            expect(frame.problems.some((problem) => problem.code === 'bar_too_short' && problem.missingMm > 0)).toBe(
              true,
            );
          else expectPoint(barPoint(each, each.s1), to.x, to.y);
        }
      }),
      { seed: 611, numRuns: 300 },
    );
  }, 30_000);
});

describe('what does not work out is a problem, and still has a place', () => {
  test('RF-7 a second bar that ends before the other leg', () => {
    const frame = rackFrame(withBars(rack('r', 'R', 0, 0, 0), bar('b1'), bar('b2', 700)));
    // Legs 950 apart (no far overhang here); from 50 along, 650 of the 700 are left: 300 missing.
    expect(frame.problems).toEqual([{ code: 'bar_too_short', span: 0, bar: 1, missingMm: expect.closeTo(300, 9) }]);
    expect(frame.bars[1].s1).toBeNull();
    expectPoint(barPoint(frame.bars[1], 700), 650, 0);
  });

  test('RF-8 overhangs longer than the tube', () => {
    const frame = rackFrame(withBars(rack('r', 'R', 5, 6, 0), { ...bar('b1', 100), overhangMm: 120 }));
    expect(frame.problems.map((problem) => problem.code)).toEqual(['no_leg_distance']);
    expectPoint(frame.legs[1], 5, 6);
  });

  test('RF-8 a tube bent past a full turn, and straight ends longer than the tube', () => {
    const bend = { radiusMm: 100, straightEndsMm: 0, side: 'left' as const };
    expect(barLine({ cutLengthMm: 629, bend })).toEqual({ ok: false, code: 'bend_past_turn' });
    expect(barLine({ cutLengthMm: 628, bend }).ok).toBe(true);
    expect(barLine({ cutLengthMm: 500, bend: { ...bend, straightEndsMm: 251 } })).toEqual({
      ok: false,
      code: 'straight_ends_too_long',
    });
    expect(barLine({ cutLengthMm: 500, bend: { ...bend, straightEndsMm: 250 } }).ok).toBe(true);
  });
});
