/** Gear that nobody knows, racks that cannot be built, drive shafts of the wrong length: codes, numbers and sentences. */
import { describe, expect, test } from 'vitest';
import { pieceProblems } from '../../../src/checks/pieceProblems.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item, Plan, Rack, Setup } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { chain, item, rack, samplePlan } from '../../fixtures/plans.ts';

function told(piece: Item | Rack) {
  const setup: Setup = { id: 's', name: 'S', riser: null, pieces: { [piece.id]: piece }, order: [piece.id] };
  const plan: Plan = { ...samplePlan(), setups: { s: setup }, order: ['s'] };
  const found = pieceProblems(plan, setup, layoutSetup(plan, 's'));
  return { found, sentences: found.map((finding) => findingSentence(finding, plan, 's')) };
}

describe('PR-1 gear', () => {
  test.each([
    [
      'nowhere',
      'unknown_gear',
      'Thing is of gear that neither this plan nor the catalogue has, so it cannot be measured: choose its gear.',
    ],
    [
      'tube-bar',
      'not_placeable',
      'Thing is of gear that does not stand by itself, such as a tube or a clamp: choose a drum, a cymbal, a pedal or a stand.',
    ],
  ])('%s: %s', (gear, code, sentence) => {
    const { found, sentences } = told(item('thing', 'Thing', gear, 0, 0));
    expect(found).toMatchObject([
      { check: 'gear', code, state: 'unmeasured', pieces: ['thing'], value: null, limit: null },
    ]);
    expect(sentences).toEqual([sentence]);
  });
  test('known gear: nothing to say', () => expect(told(item('thing', 'Thing', 'tom', 0, 0)).found).toEqual([]));
});

describe('PR-2 racks', () => {
  const bent = (bend: Rack['spans'][number]['bars'][number]['bend']): Rack => {
    const made = rack('r', 'Rack', 0, 0, 0);
    Object.assign(made.spans[0].bars[0], { bend });
    return made;
  };
  test.each([
    // A tube of 1000 mm: a full turn of radius 100 is 628 mm.
    [
      'bend_past_turn',
      bent({ radiusMm: 100, side: 'left', straightEndsMm: 0 }),
      'A bar of Rack would bend past a full turn: give it a larger bend radius or a shorter cut length.',
    ],
    [
      'straight_ends_too_long',
      bent({ radiusMm: 500, side: 'left', straightEndsMm: 600 }),
      'A bar of Rack has straight ends longer than the tube: shorten them, or cut a longer tube.',
    ],
  ])('%s', (code, piece, sentence) => {
    const { found, sentences } = told(piece);
    expect(found.find((each) => each.code === code)).toMatchObject({
      check: 'rack',
      state: 'blocked',
      bodies: ['r/b1'],
    });
    expect(sentences).toContain(sentence);
  });

  test('no_leg_distance', () => {
    const made = rack('r', 'Rack', 0, 0, 0);
    made.spans[0].farOverhangMm = 950;
    const { found, sentences } = told(made);
    expect(found[0]).toMatchObject({ code: 'no_leg_distance', state: 'blocked', value: null, limit: null });
    expect(sentences[0]).toBe('A bar of Rack leaves no distance between its two legs: make its overhangs shorter.');
  });

  test('bar_too_short: by how much a second bar misses the leg', () => {
    const made = chain('r', 'Rack');
    made.spans[0].bars[1].cutLengthMm = 600;
    const { found, sentences } = told(made);
    // The legs are 900 mm apart, and the bar leaves 50 mm of its 600 beyond the first.
    expect(found).toMatchObject([{ code: 'bar_too_short', state: 'blocked', bodies: ['r/b2'], limit: 0 }]);
    expect(found[0].value).toBeCloseTo(350, 9);
    expect(sentences).toEqual([
      'A second bar of Rack ends 350 mm before the leg: cut a longer tube, or give it less overhang.',
    ]);
  });
});

describe('PR-3 drive shafts, of 300 to 500 mm', () => {
  test.each([
    [
      'shaft_too_short',
      501,
      500,
      'The two pedals of Pedals are 501 mm apart, and its drive shaft reaches 500 mm: move them together.',
    ],
    [
      'shaft_too_long',
      299,
      300,
      'The two pedals of Pedals are 299 mm apart, and its drive shaft is no shorter than 300 mm: move them apart.',
    ],
  ])('%s', (code, apart, limit, sentence) => {
    const pedal: Item = {
      ...item('p', 'Pedals', 'double-pedal', 40, 30),
      second: { xMm: -apart, yMm: 0, headingDeg: 0 },
    };
    const { found, sentences } = told(pedal);
    expect(found).toMatchObject([{ check: 'driveShaft', code, state: 'blocked', pieces: ['p'], limit }]);
    expect(found[0].value).toBeCloseTo(apart, 9);
    expect(found[0].at?.[0]).toBeCloseTo(40 - apart / 2, 9);
    expect(sentences).toEqual([sentence]);
  });
  test.each([300, 500])('%d mm apart: it reaches', (apart) => {
    const second = { xMm: -apart, yMm: 0, headingDeg: 0 };
    expect(told({ ...item('p', 'Pedals', 'double-pedal', 40, 30), second }).found).toEqual([]);
  });
});
