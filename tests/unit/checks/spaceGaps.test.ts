/** What leans or is above something is measured in space; a cymbal wants room to swing. */
import { describe, expect, test } from 'vitest';
import { pairReadings } from '../../../src/checks/clearance.ts';
import { requiredAbove, requiredClearance } from '../../../src/checks/limits.ts';
import { runChecks } from '../../../src/checks/run.ts';
import { heightGap, needsSpace, roomAlong } from '../../../src/checks/spaceGaps.ts';
import { gapValue } from '../../../src/geometry/gap.ts';
import { type Body, solidOf } from '../../../src/layout/body.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item, Limits, Plan } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { seeded } from '../../fixtures/kits.ts';
import { planOf } from '../../fixtures/plans.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';
import { few, seeds } from '../../fixtures/seeds.ts';
import { sampledGap } from '../../fixtures/solidSamples.ts';

type Place = Partial<Item['place']>;

function piece(id: string, gear: string, xMm: number, yMm: number, place: Place = {}): Item {
  return { kind: 'item', id, name: id, gear, mount: null, place: { xMm, yMm, headingDeg: 0, ...place } };
}

const planWith = (pieces: readonly Item[], limits?: Limits): Plan => ({
  ...planOf(...pieces),
  ...(limits && { limits }),
});

function clearances(plan: Plan) {
  const { findings } = runChecks(plan, 's', layoutSetup(plan, 's'));
  return findings.filter((finding) => finding.check === 'clearance');
}

/** By brute force; of two that stand upright, from what they have in plan and in height. */
function brute(a: Body, b: Body): number {
  const [p, q] = [solidOf(a), solidOf(b)];
  if (p.kind !== 'upright' || q.kind !== 'upright') return sampledGap(p, q);
  return Math.hypot(Math.max(0, gapValue(a.shape, b.shape)), Math.max(0, heightGap(a, b)));
}

/** Of the two nearest bodies of two pieces. */
function bruteGap(plan: Plan, first: string, second: string): number {
  const { bodies } = layoutSetup(plan, 's');
  const of = (id: string) => bodies.filter(({ piece }) => piece === id);
  return Math.min(...of(first).flatMap((a) => of(second).map((b) => brute(a, b))));
}

describe('SP-1 tilted pieces are what they are', () => {
  // The high edge of a crash, 25 degrees, over a tom whose head is at the height of the crash's middle.
  const over = (yMm: number) =>
    planWith([
      piece('crash', 'crash-16', 0, 0, { heightMm: 900, tiltDeg: 25 }),
      piece('tom', 'tom-12x8', 0, yMm, { heightMm: 900 }),
    ]);

  test('a tom under the high edge has the air that it has', () => {
    const plan = over(-300);
    const [crash, tom] = layoutSetup(plan, 's').bodies;
    // In plan the outlines run into each other, and their heights meet.
    expect(gapValue(crash.shape, tom.shape)).toBeLessThan(-60);
    expect(heightGap(crash, tom)).toBeLessThan(0);
    const [finding] = clearances(plan);
    const brute = bruteGap(plan, 'crash', 'tom');
    expect(brute).toBeGreaterThan(45);
    expect([finding.state, finding.code, finding.space]).toEqual(['clear', 'apart', true]);
    expect(Math.abs(finding.value - brute)).toBeLessThan(0.5);
    expect(finding.upper).toBe(0);
  });

  test('a tom that the low edge cuts into is blocked, with the flag that it has in plan', () => {
    const plan = over(250);
    const [crash, tom] = layoutSetup(plan, 's').bodies;
    const [finding] = clearances(plan);
    expect([finding.state, finding.code, finding.space]).toEqual(['blocked', 'overlap', true]);
    expect(finding.value).toBeCloseTo(gapValue(crash.shape, tom.shape), 9);
    expect(bruteGap(plan, 'crash', 'tom')).toBeLessThan(0.5);
  });

  test('a tom over the shoulder of a bass drum is over a round thing', () => {
    // The tom's bottom is at 558.8 mm, the drum's top at 582.8; but the drum is 524 mm high under the tom's near side.
    const plan = planWith([piece('bass', 'bass-22x16', 0, 0), piece('tom', 'tom-12x8', 320, 0, { heightMm: 762 })]);
    const [finding] = clearances(plan);
    const brute = bruteGap(plan, 'bass', 'tom');
    expect([finding.state, finding.space]).toEqual(['clear', true]);
    expect(brute).toBeGreaterThan(15);
    expect(Math.abs(finding.value - brute)).toBeLessThan(0.5);
  });

  const GEAR = [
    'crash-16',
    'ride-20',
    'tom-12x8',
    'tom-10x7',
    'snare-14x5.5',
    'floor-tom-16x16',
    'bass-22x16',
    'throne-round',
  ];

  test('random kits: every number as sampling has it, nothing too close is left out, and nothing is blocked that has air', () => {
    const [seed] = seeds(1_000_000);
    const wrong: string[] = [];
    for (let k = 0; k < few(60, 6); k++) {
      const random = seeded(60 * seed + k);
      const near = (low: number, high: number) => low + (high - low) * random();
      const plan = planWith(
        GEAR.map((gear, i) =>
          piece(`p${i}`, gear, near(-450, 450), near(-450, 450), {
            headingDeg: near(0, 360),
            ...(gear.startsWith('bass') || gear.startsWith('throne')
              ? {}
              : { heightMm: near(600, 1000), tiltDeg: near(0, 25) }),
          }),
        ),
      );
      const { bodies } = layoutSetup(plan, 's');
      const found = new Map(
        pairReadings(plan, plan.setups.s, bodies).map((pair) => [`${pair.a.id} ${pair.b.id}`, pair]),
      );
      bodies.forEach((a, i) => {
        for (const b of bodies.slice(i + 1)) {
          if (a.piece === b.piece || !needsSpace(a, b) || gapValue(a.shape, b.shape) > 60) continue;
          const air = brute(a, b);
          const pair = found.get(`${a.id} ${b.id}`);
          if (!isRight(a, b, air, pair)) wrong.push(JSON.stringify([seed, k, a.id, b.id, air, pair?.gap]));
        }
      });
    }
    expect(wrong).toEqual([]);
  });

  test('under the raised edge of a tilted ride there is air, where its bound from outside has none', () => {
    // Tilted by 25 degrees its front edge is 107 mm up; 180 mm before its middle it is 84 mm above the anchor.
    const plan = planWith([
      piece('ride', 'ride-20', 0, 0, { heightMm: 800, tiltDeg: 25 }),
      piece('tom', 'tom-10x7', 0, -180, { heightMm: 740, tiltDeg: 0 }),
    ]);
    const [ride, tom] = layoutSetup(plan, 's').bodies;
    expect(heightGap(ride, tom)).toBeLessThan(0);
    expect(gapValue(ride.shape, tom.shape)).toBeLessThan(0);
    const air = brute(ride, tom);
    expect(air).toBeGreaterThan(60);
    const pair = pairReadings(plan, plan.setups.s, layoutSetup(plan, 's').bodies)[0];
    if (pair) expect(Math.abs(pair.gap - air)).toBeLessThan(0.5);
    expect(clearances(plan).filter(({ state }) => state === 'blocked')).toEqual([]);
  });

  function isRight(a: Body, b: Body, air: number, pair: ReturnType<typeof pairReadings>[number] | undefined): boolean {
    const [beside, above] = [requiredClearance(undefined, a.kind, b.kind)!, requiredAbove(undefined, a.kind, b.kind)];
    if (!pair) return air > Math.min(above, Math.max(60, beside)) - 0.5;
    if (pair.space === null) return false;
    return pair.gap > 0 ? Math.abs(pair.gap - air) < 0.5 : air < 0.5;
  }
});

describe.each(sampleSetups())('SP-1 $name: pairs in space as sampling has them', ({ plan, id }) => {
  test('all of them', () => {
    const pairs = pairReadings(plan, plan.setups[id], layoutSetup(plan, id).bodies).filter(
      ({ space }) => space !== null,
    );
    expect(pairs.length).toBeGreaterThan(0);
    for (const { a, b, gap } of pairs) expect(Math.abs(gap - brute(a, b)), `${a.id} ${b.id}`).toBeLessThan(0.5);
  });
});

describe('SP-2 room to swing', () => {
  /** A level crash, its edge so far above the middle of something that is 600 mm high. */
  const above = (gear: string, airMm: number, limits?: Limits) =>
    clearances(
      planWith(
        [
          piece('under', gear, 0, 0, { heightMm: 600 }),
          piece('crash', 'crash-16', 0, 0, { heightMm: 600 + airMm + (gear === 'crash-18' ? 51 : 0) }),
        ],
        limits,
      ),
    );

  test('11 mm above a head is too close, and 40 are enough', () => {
    const plan = planWith([
      piece('Tom 12', 'tom-12x8', 0, 0, { heightMm: 600 }),
      piece('Crash 16', 'crash-16', 0, 0, { heightMm: 611 }),
    ]);
    const [finding] = clearances(plan);
    expect([finding.state, finding.code, finding.limit, finding.upper]).toEqual(['tight', 'too_close', 40, 1]);
    expect(finding.value).toBeCloseTo(11, 6);
    expect(findingSentence(finding, plan, 's')).toMatch(/^Crash 16 is .* above Tom 12, and .* is wanted: raise/);
    expect(above('tom-12x8', 40)).toEqual([]);
    expect(above('tom-12x8', 39)[0].state).toBe('tight');
  });

  test.each([
    ['snare-14x5.5', 40],
    ['floor-tom-16x16', 40],
    ['crash-18', 30],
    ['throne-round', 25],
  ])('over %s: %i mm', (gear, room) => {
    expect(above(gear, room)).toEqual([]);
    const [finding] = above(gear, room - 1);
    expect([finding.state, finding.limit, finding.source]).toEqual(['tight', room, "Legroom's own default"]);
  });

  test('the plan may want more or less', () => {
    const own = { cymbalRoomMm: { drum: 60 } };
    const [finding] = above('tom-12x8', 50, own);
    expect([finding.state, finding.limit, finding.source]).toEqual(['tight', 60, 'set in this plan']);
    expect(above('tom-12x8', 11, { cymbalRoomMm: { drum: 10 } })).toEqual([]);
    // Of other things it says nothing.
    expect(above('crash-18', 29, own)[0].limit).toBe(30);
    // Heights that count as meeting count for cymbals too, where no own room is set.
    expect(above('tom-12x8', 45, { heightMm: 50 })[0]).toMatchObject({ state: 'tight', limit: 50 });
    expect(above('tom-12x8', 45, { heightMm: 50, cymbalRoomMm: { drum: 30 } })).toEqual([]);
  });

  test('a cymbal beside a rim keeps the limit of the two kinds', () => {
    // 203.2 and 162.4 mm are their radii; the head is at the height of the edge.
    const beside = (gap: number) =>
      clearances(
        planWith([
          piece('tom', 'tom-12x8', 0, 0, { heightMm: 600 }),
          piece('crash', 'crash-16', 203.2 + 162.4 + gap, 0, { heightMm: 600 }),
        ]),
      )[0];
    expect(beside(19)).toMatchObject({ state: 'tight', upper: null, limit: expect.closeTo(20, 3) });
    expect(beside(21).state).toBe('clear');
  });
});

test('SP-3 what is wanted along a line lies on an ellipse: moved away, nothing comes too close', () => {
  expect([roomAlong({ beside: 20, above: 40 }, 5, 0), roomAlong({ beside: 20, above: 40 }, 0, 5)]).toEqual([20, 40]);
  // x = y on the ellipse x^2/20^2 + y^2/40^2 = 1, by hand.
  expect(roomAlong({ beside: 20, above: 40 }, 7, 7)).toBeCloseTo(Math.SQRT2 * Math.sqrt(320), 9);
  expect([roomAlong({ beside: 0, above: 40 }, 3, 4), roomAlong({ beside: 20, above: 0 }, 3, 4)]).toEqual([0, 0]);
  const isFree = (x: number, y: number) => Math.hypot(x, y) >= roomAlong({ beside: 20, above: 40 }, x, y);
  for (let x = 0; x < 50; x += 0.7)
    for (let y = 0; y < 50; y += 0.7)
      if (isFree(x, y)) expect([isFree(x + 0.7, y), isFree(x, y + 0.7)], `${x} ${y}`).toEqual([true, true]);
});

test('SP-4 at its limit but for rounding, nothing is too close', () => {
  const pair = (xMm: number) => planWith([piece('a', 'pedal-single', 0, 0), piece('b', 'pedal-single', xMm, 0)]);
  const [board, , far] = layoutSetup(pair(300), 's').bodies;
  const width = 300 - gapValue(board.shape, far.shape);
  const at = (gap: number) => clearances(pair(width + gap))[0];
  expect(at(25).limit).toBe(25);
  expect([at(25 - 1e-8).state, at(25 - 1e-5).state]).toEqual(['clear', 'tight']);
  expect([at(1e-8).state, at(1e-5).state]).toEqual(['blocked', 'tight']);
});
