import { describe, expect, test } from 'vitest';
import type { Drummer, Plan } from '../../../src/plan/schema.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { broken, expectProblem, SETUP, straight } from './broken.ts';
import { expectLaws, expectRefusal } from './laws.ts';

const plan = samplePlan();
const setup = 'straight';
const drummer: Drummer = { id: 'kim', name: 'Kim', sex: 'woman', percentile: 5, handed: 'left', stickMm: 400 };
const added = expectLaws(plan, { type: 'addDrummer', drummer });
const chosen = expectLaws(added, { type: 'setDrummer', setup, drummer: 'kim' });

describe('drummers', () => {
  test('DO-8 add, edit, remove; setups of a removed drummer are set for a typical one', () => {
    expect(added.drummers).toEqual({ kim: drummer });
    const edited = expectLaws(added, {
      type: 'editDrummer',
      drummer: 'kim',
      set: { percentile: 40, stickMm: null, openHanded: true, measuredMm: { kneeMm: 520 } },
    });
    const { stickMm: _, ...rest } = drummer;
    expect(edited.drummers?.kim).toEqual({ ...rest, percentile: 40, openHanded: true, measuredMm: { kneeMm: 520 } });
    const two = expectLaws(chosen, { type: 'addDrummer', drummer: { ...drummer, id: 'lee' } });
    expect(Object.keys(expectLaws(two, { type: 'removeDrummer', drummer: 'kim' }).drummers ?? {})).toEqual(['lee']);
    expect(expectLaws(chosen, { type: 'removeDrummer', drummer: 'kim' })).toEqual(plan);
    const mirrored = expectLaws(chosen, { type: 'mirrorSetup', setup, axisXMm: 0 });
    expect(expectLaws(mirrored, { type: 'removeDrummer', drummer: 'kim' }).setups.straight).not.toHaveProperty(
      'otherHand',
    );
  });
  test('SE-13 which drummer a setup is set for', () => {
    expect([chosen.setups.straight.drummer, chosen.setups.empty.drummer]).toEqual(['kim', undefined]);
    expect(expectLaws(chosen, { type: 'setDrummer', setup, drummer: null })).toEqual(added);
  });
  test('SE-13 mirrored, the drummer leads with the other hand there and nowhere else; twice is nothing', () => {
    const once = expectLaws(chosen, { type: 'mirrorSetup', setup, axisXMm: 0 });
    expect(once.setups.straight.otherHand).toBe(true);
    expect(once.drummers).toBe(chosen.drummers);
    expect(expectLaws(once, { type: 'mirrorSetup', setup, axisXMm: 0 }).setups.straight).not.toHaveProperty(
      'otherHand',
    );
    const again = expectLaws(once, { type: 'setDrummer', setup, drummer: 'kim' });
    expect(again.setups.straight).not.toHaveProperty('otherHand');
    // Nobody named: the kit says which hand leads.
    const nobody = expectLaws(plan, { type: 'mirrorSetup', setup, axisXMm: 0 });
    expect(nobody.setups.straight).not.toHaveProperty('otherHand');
  });
  test('refusals', () => {
    expectRefusal(added, { type: 'addDrummer', drummer }, 'id_taken', /a drummer with the id "kim"/);
    expectRefusal(
      plan,
      { type: 'addDrummer', drummer: { ...drummer, id: 'prototype' } },
      'id_unusable',
      /cannot be used/,
    );
    expectRefusal(plan, { type: 'editDrummer', drummer: 'x', set: { name: 'x' } }, 'unknown', /no drummer "x"/);
    expectRefusal(added, { type: 'editDrummer', drummer: 'kim', set: {} }, 'nothing_asked', /Nothing/);
    expectRefusal(plan, { type: 'removeDrummer', drummer: 'kim' }, 'unknown', /The plan has no drummer "kim"/);
    expectRefusal(plan, { type: 'setDrummer', setup, drummer: 'kim' }, 'unknown', /The plan has no drummer "kim"/);
    expectRefusal(added, { type: 'setDrummer', setup: 'no', drummer: 'kim' }, 'unknown', /no setup "no"/);
    expectRefusal(
      added,
      { type: 'editDrummer', drummer: 'kim', set: { percentile: 0 } },
      'breaks_plan',
      /^Drummer "Kim": "percentile" is 0, and must be at least 1\.$/,
    );
    expectRefusal(
      added,
      { type: 'editDrummer', drummer: 'kim', set: { measuredMm: { kneeMm: 5 } } },
      'breaks_plan',
      /^Drummer "Kim", tape: "kneeMm" is 5, and must be at least 360\.$/,
    );
    const full: Plan = { ...plan, drummers: {} };
    for (let i = 0; i < 40; i++) full.drummers![`d${i}`] = { ...drummer, id: `d${i}` };
    expectRefusal(
      full,
      { type: 'addDrummer', drummer },
      'breaks_plan',
      /^The plan: it has 41 drummers, and the most is 40\.$/,
    );
  });
  test('PL-19 files that are broken here', () => {
    const reason = 'it is set for drummer "kim", which is not in this plan.';
    const gone = broken((each) => {
      straight(each).drummer = 'kim';
    });
    expectProblem(gone, 'unknown_drummer', SETUP, `${SETUP}: ${reason}`);
    const misnamed = broken((each) => {
      each.drummers = { kim: { ...drummer, id: 'lee' } };
    });
    expectProblem(misnamed, 'id_differs', 'Drummer "Kim"', /its id is "lee"/);
  });
});
