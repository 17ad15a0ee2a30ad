/** What stands on a riser and how near its edge, on decks of known size, with feet of known size. */
import { describe, expect, test } from 'vitest';
import { comparedSetup } from '../../../src/checks/compare.ts';
import type { Item, Plan, Rack } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { item, rack, samplePlan } from '../../fixtures/plans.ts';

const DECK = [0, 400, 1200, 800] as const;

/** Decks are x, y of the middle, width and depth, mm. */
function checked(pieces: (Item | Rack)[], riser: string | null = 'riser', ...decks: (readonly number[])[]) {
  return checkedTurning(undefined, pieces, riser, ...decks);
}

/** With another limit on turns. */
function checkedTurning(
  turnAtMostDeg: number | undefined,
  pieces: (Item | Rack)[],
  riser: string | null = 'riser',
  ...decks: (readonly number[])[]
) {
  const plan: Plan = samplePlan();
  if (turnAtMostDeg !== undefined) plan.risers.riser.turnAtMostDeg = turnAtMostDeg;
  plan.risers.riser.modules = (decks.length > 0 ? decks : [DECK]).map(([xMm, yMm, widthMm, depthMm], k) => {
    return { id: `m${k}`, xMm, yMm, widthMm, depthMm, headingDeg: 0 };
  });
  const setup = { id: 's', name: 'S', riser, order: pieces.map(({ id }) => id) };
  plan.setups.s = { ...setup, pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])) };
  const {
    readings,
    checked: { findings },
  } = comparedSetup(plan, 's');
  const found = findings.filter((finding) => finding.check === 'riserFit');
  return { readings, found, sentences: found.map((finding) => findingSentence(finding, plan, 's')) };
}

/** Legs 900 mm apart along x from (x, 400), each on a T-foot of 500 x 40 mm along y. */
const racked = (xMm: number, headingDeg = 0) => rack('r', 'Rack', xMm, 400, headingDeg);

describe('RF-1 floor contacts and the edge', () => {
  test.each([
    // The left T-foot reaches 20 mm further left than its leg; the deck's left edge is at -600.
    [
      -450,
      130,
      'on_the_riser',
      'clear',
      'Everything stands on the riser: Rack comes nearest to its edge, 130 mm away with 50 mm wanted.',
    ],
    [
      -530,
      50,
      'on_the_riser',
      'clear',
      'Everything stands on the riser: Rack comes nearest to its edge, 50 mm away with 50 mm wanted.',
    ],
    [-540, 40, 'near_the_edge', 'tight', "Rack stands 40 mm from the riser's edge, and 50 mm is wanted."],
    [
      -600,
      -20,
      'off_the_riser',
      'blocked',
      "Rack stands 20 mm over the riser's edge: move it onto the riser, or turn the kit.",
    ],
  ] as const)('a leg at x = %d: %d mm, %s', (xMm, margin, code, state, sentence) => {
    const { found, sentences, readings } = checked([racked(xMm)]);
    expect(found).toMatchObject([{ code, state, pieces: ['r'], limit: 50, source: 'set in this plan' }]);
    expect(found[0].value).toBeCloseTo(margin, 9);
    expect(found[0].at?.[0]).toBeCloseTo(xMm, 9);
    expect(readings.riserMargin).toBeCloseTo(margin, 9);
    expect(sentences).toEqual([sentence]);
  });

  test('SP-4 at the edge and at the margin but for rounding', () => {
    const at = (xMm: number) => checked([racked(xMm)]).found[0].code;
    expect([at(-530 - 1e-8), at(-530 - 1e-5)]).toEqual(['on_the_riser', 'near_the_edge']);
    expect([at(-580 - 1e-8), at(-580 - 1e-5)]).toEqual(['near_the_edge', 'off_the_riser']);
  });

  test('one finding for each piece that is too near, the worst first; nothing without a riser', () => {
    const other = { ...racked(-580), id: 'other' };
    const both = [racked(-560), other];
    expect(checked(both).found.map(({ pieces, value }) => [...pieces, Math.round(value ?? NaN)])).toEqual([
      ['other', 0],
      ['r', 20],
    ]);
    expect(checked(both, null).found).toEqual([]);
  });
});

test('RF-2 what hangs out over the edge is a reading and no finding', () => {
  // The cymbal of 406 mm reaches 103 mm beyond the edge at 600.
  const crash: Item = {
    ...item('crash', 'Crash', 'crash', 500, 400),
    place: { xMm: 500, yMm: 400, headingDeg: 0, heightMm: 900 },
  };
  const { found, readings } = checked([racked(-450), crash]);
  expect(found.map(({ code }) => code)).toEqual(['on_the_riser']);
  expect(readings.overhang).toBeCloseTo(103, 9);
});

describe('RF-3 the best pose', () => {
  test('on a convex deck: shifted to the middle; turned square to it, more', () => {
    // Contacts 940 x 500 mm on 1200 x 800: 130 mm and 150 mm are left on either side.
    const level = checked([racked(-550)]).readings;
    expect(level.bestRiserShift).toMatchObject({ within: 0 });
    expect(level.bestRiserShift?.margin).toBeCloseTo(130, 6);
    expect(level.bestRiserPose?.margin).toBeGreaterThanOrEqual(level.bestRiserShift!.margin - 1e-9);
    const turned = checkedTurning(180, [racked(-300, 30)]).readings;
    expect(turned.bestRiserShift!.margin).toBeLessThan(100);
    expect(turned.bestRiserPose?.margin).toBeCloseTo(level.bestRiserPose!.margin, 6);
  });

  test('a drummer is not turned farther from the audience than is allowed', () => {
    const throne = (headingDeg: number): Item => ({
      ...item('throne', 'Throne', 'throne', 0, 700),
      place: { xMm: 0, yMm: 700, headingDeg },
    });
    // The deck is deeper than wide, so the kit would lie best a quarter turned.
    const deep = [0, 400, 800, 1200];
    const poseOf = (atMost: number | undefined, kitDeg: number, throneDeg: number) =>
      checkedTurning(atMost, [racked(-450, kitDeg), throne(throneDeg)], 'riser', deep).readings.bestRiserPose!;
    expect(Math.abs(poseOf(180, 0, 0).angle)).toBeGreaterThan(45);
    const usual = poseOf(undefined, 0, 0);
    expect(usual.turnAtMost).toBe(15);
    expect(Math.abs(usual.angle)).toBeLessThanOrEqual(15 + 1e-9);
    expect(Math.abs(poseOf(5, 0, 0).angle)).toBeLessThanOrEqual(5 + 1e-9);
    // Facing 10 degrees to one side it may go 25 the other way, but only 5 farther.
    const { angle } = poseOf(undefined, 0, 10);
    expect(angle).toBeLessThanOrEqual(5 + 1e-9);
    expect(angle).toBeGreaterThanOrEqual(-25 - 1e-9);
    // Side on by the drummer's own wish it may stay so, and may turn back.
    const aside = poseOf(undefined, 0, 90);
    expect(aside.angle).toBeLessThanOrEqual(1e-9);
    expect(aside.angle).toBeGreaterThanOrEqual(-105 - 1e-9);
  });

  test('where nothing fits it says how far a foot stays off, and the kit moved there does', () => {
    const { readings } = checked([racked(-450)], 'riser', [0, 400, 700, 300]);
    const { margin, angle, move } = readings.bestRiserPose!;
    expect(margin).toBeLessThan(0);
    const [x, y] = [-450, 400];
    const [c, s] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
    const there = {
      ...racked(0, angle),
      place: { xMm: c * x - s * y + move[0], yMm: s * x + c * y + move[1], headingDeg: angle },
    };
    expect(checked([there], 'riser', [0, 400, 700, 300]).readings.riserMargin).toBeCloseTo(margin, 5);
    expect(readings.riserMargin).toBeLessThanOrEqual(margin + 1e-6);
  });

  test('on an L where nothing keeps all on the deck: what sticks out least', () => {
    const l = [
      [0, 400, 1200, 800],
      [-450, 950, 300, 300],
    ];
    expect(checked([racked(-450)], 'riser', ...l).readings.bestRiserShift?.margin).toBeGreaterThan(100);
    const short = l.map(([x, y, w, d]) => [x / 2, y, w / 2, d]);
    const { bestRiserPose, bestRiserShift, riserMargin } = checked([racked(-450)], 'riser', ...short).readings;
    expect(bestRiserShift!.margin).toBeLessThan(0);
    expect(bestRiserShift!.margin).toBeGreaterThanOrEqual(riserMargin!);
    expect(bestRiserPose!.margin).toBeGreaterThanOrEqual(bestRiserShift!.margin - 0.01);
  });
});

describe('RF-4 modules clamped together', () => {
  test('two modules laid by rounded numbers are one deck: a foot over the crack stands on it, and a best place is found', () => {
    // Two modules 600 wide; the second's middle is typed 2 mm too far to the right, and 1 mm upstage.
    const laid = [
      [-300, 400, 600, 800],
      [302, 401, 600, 800],
    ];
    const { readings, found } = checked([racked(-450)], 'riser', ...laid);
    expect(found.map(({ state }) => state)).toEqual(['clear']);
    // The seam lies in the middle of the crack, the ends in the middle of the step; the outer sides stay.
    expect(readings.riserMargin).toBeCloseTo(130, 6);
    expect(readings.bestRiserPose).toMatchObject({ within: 0 });
    expect(readings.bestRiserShift!.margin).toBeCloseTo(131, 6);
  });

  test('a slit of 4 mm is an edge', () => {
    const apart = [
      [-300, 400, 600, 800],
      [304, 400, 600, 800],
    ];
    // The rack's second leg at 0 stands over the slit.
    const { found } = checked([racked(-900)], 'riser', ...apart);
    expect(found[0]).toMatchObject({ code: 'off_the_riser' });
    const clamped = apart.map(([x, ...rest]) => [Math.min(x, 302), ...rest]);
    expect(checked([racked(-550)], 'riser', ...clamped).found[0].code).toBe('near_the_edge');
  });
});
