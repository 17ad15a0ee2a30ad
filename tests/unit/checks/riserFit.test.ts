/** What stands on a riser and how near its edge, on decks of known size, with feet of known size. */
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../../src/checks/run.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item, Plan, Rack } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { item, rack, samplePlan } from '../../fixtures/plans.ts';

const DECK = [0, 400, 1200, 800] as const;

/** Decks are x, y of the middle, width and depth, mm. */
function checked(pieces: (Item | Rack)[], riser: string | null = 'riser', ...decks: (readonly number[])[]) {
  const plan: Plan = samplePlan();
  plan.risers.riser.modules = (decks.length > 0 ? decks : [DECK]).map(([xMm, yMm, widthMm, depthMm], k) => {
    return { id: `m${k}`, xMm, yMm, widthMm, depthMm, headingDeg: 0 };
  });
  const setup = { id: 's', name: 'S', riser, order: pieces.map(({ id }) => id) };
  plan.setups.s = { ...setup, pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])) };
  const { findings, readings } = runChecks(plan, 's', layoutSetup(plan, 's'));
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
    const turned = checked([racked(-300, 30)]).readings;
    expect(turned.bestRiserShift!.margin).toBeLessThan(100);
    expect(turned.bestRiserPose?.margin).toBeCloseTo(level.bestRiserPose!.margin, 6);
  });

  test('on an L: none where nothing keeps all on the deck', () => {
    const l = [
      [0, 400, 1200, 800],
      [-450, 950, 300, 300],
    ];
    expect(checked([racked(-450)], 'riser', ...l).readings.bestRiserShift?.margin).toBeGreaterThan(100);
    const short = l.map(([x, y, w, d]) => [x / 2, y, w / 2, d]);
    const { bestRiserPose, bestRiserShift } = checked([racked(-450)], 'riser', ...short).readings;
    expect([bestRiserPose, bestRiserShift]).toEqual([null, null]);
  });
});
