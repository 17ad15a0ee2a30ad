/** The drummer's legs among a kit: cases by hand, and laws on the samples. */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../../src/checks/finding.ts';
import { runChecks } from '../../../src/checks/run.ts';
import { legBodies } from '../../../src/layout/drummerBodies.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { item } from '../../fixtures/plans.ts';
import { checkedOf, layoutOf, sampleSetups } from '../../fixtures/samplePlans.ts';
import { some } from '../../fixtures/seeds.ts';

const ID = 'setup-1';

function planOf(pieces: readonly Item[], more: Partial<Plan> = {}): Plan {
  const plan = newPlan('legs');
  const setup = {
    ...plan.setups[ID],
    riser: null,
    pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])),
    order: pieces.map(({ id }) => id),
  };
  return { ...plan, ...more, setups: { [ID]: setup } };
}
const at = (piece: Item, place: Partial<Item['place']>): Item => ({ ...piece, place: { ...piece.place, ...place } });
const throne = at(item('throne', 'Throne', 'throne-round', 0, 0), { heightMm: 500 });
const kick = item('kick', 'Kick pedal', 'pedal-single', -200, -640);
const hat = item('hat', 'Hat', 'stand-hi-hat-legless', 430, -630);
const kit = [throne, kick, at(hat, { headingDeg: 34 })];
const snare = (x: number, y = -560) => at(item('snare', 'Snare', 'snare-14x5.5', x, y), { heightMm: 650 });

const legs = (plan: Plan): Finding[] =>
  runChecks(plan, ID, layoutSetup(plan, ID)).findings.filter((f) => f.check === 'legRoom');
const codes = (plan: Plan) => legs(plan).map(({ code, state, pieces }) => [code, state, ...pieces]);
const told = (plan: Plan) => legs(plan).map((finding) => findingSentence(finding, plan, ID));

describe('LR-1 legs keep their limits', () => {
  test('with nothing near they are free, and the drummer is a typical one', () => {
    expect(codes(planOf(kit))[0]).toEqual(['legs_free', 'clear']);
    expect(told(planOf(kit))[0]).toBe('The legs of a typical drummer are clear: nothing is near them.');
  });
  test('a snare between the knees is clear; nearer to the throne than knees open for, it is not', () => {
    expect(codes(planOf([...kit, snare(30)]))[0]).toEqual(['legs_clear', 'clear', 'snare']);
    const near = planOf([...kit, snare(0, -300)]);
    expect(codes(near)).toContainEqual(['leg_hits', 'blocked', 'snare']);
    expect(told(near).join()).toMatch(
      /The drummer’s (left|right) thigh runs into Snare: move one of them to leave 5 mm\./,
    );
  });
  test('a stand’s tube beside a shin: blocked, tight, clear as it goes away, and the user’s own limit counts', () => {
    const beside = (x: number, limits?: Plan['limits']) => {
      const stand = item('stand', 'Stand', 'stand-hi-hat-legless', x, -460);
      // A hi-hat stand would be a pedal; a plain tube is what is wanted here.
      return planOf([...kit, { ...stand, gear: 'microphone-stand' }], limits ? { limits } : {});
    };
    const legsAt = (x: number) => legs(beside(x))[0];
    expect(legsAt(-200)).toMatchObject({ code: 'leg_hits', state: 'blocked', pieces: ['stand'] });
    const clear = legsAt(-445);
    expect(clear).toMatchObject({ code: 'legs_clear', state: 'clear', limit: 30 });
    expect(clear.value!).toBeGreaterThan(30);
    // Nearer by as much as brings it to 20 mm.
    const tight = legsAt(-445 + clear.value! - 20);
    expect(tight).toMatchObject({ code: 'leg_close', state: 'tight', limit: 30, source: "Legroom's own default" });
    expect(Math.abs(tight.value! - 20)).toBeLessThan(2);
    const own = legs(beside(-445, { clearanceMm: { 'drummer+stageItem': 80 } }))[0];
    expect(own).toMatchObject({ code: 'leg_close', limit: 80, source: 'set in this plan' });
    const none = legs(beside(-200, { clearanceMm: { 'drummer+stageItem': null } }))[0];
    expect(none.code).toBe('legs_free');
  });
});

test('LR-2 what a foot works it may touch, and the other foot may not', () => {
  expect(codes(planOf(kit))).toEqual([
    ['legs_free', 'clear'],
    ['knees_bend', 'clear', 'hat'],
  ]);
  // A second bass pedal so near that the hi-hat's foot would stand on it.
  const near = planOf([...kit, item('bell', 'Bell pedal', 'pedal-single', -300, -640)]);
  // The right foot works both of them.
  expect(codes(near)[0]).toEqual(['legs_free', 'clear']);
});

describe('LR-3 knees and reach', () => {
  const withKick = (y: number, height = 500) =>
    planOf([at(throne, { heightMm: height }), at(kick, { xMm: -100, yMm: y })]);
  test('out of reach, too straight, at ease, too bent as the pedal comes nearer', () => {
    expect(codes(withKick(-1100))).toContainEqual(['pedal_out_of_reach', 'blocked', 'kick']);
    expect(told(withKick(-1100)).join()).toMatch(
      /Kick pedal is \d+(\.\d)? mm beyond the drummer’s right foot, the leg straight/,
    );
    expect(codes(withKick(-800))).toContainEqual(['knee_too_straight', 'tight', 'kick']);
    expect(codes(withKick(-640))).toContainEqual(['knees_bend', 'clear', 'kick']);
    expect(codes(withKick(-250, 460))).toContainEqual(['knee_too_bent', 'tight', 'kick']);
  });
});

test('LR-4 pedals without a throne: nobody sits; without pedals nothing is said', () => {
  expect(codes(planOf([kick]))).toEqual([['nobody_sits', 'unmeasured', 'kick']]);
  expect(codes(planOf([snare(0)]))).toEqual([]);
  expect(codes(planOf([throne]))).toEqual([]);
});

describe.each(some(sampleSetups(), 4))('LR-5 $name', ({ plan, id }) => {
  const layout = layoutOf(plan, id);
  test('the drummer counts in no reading, and no other check speaks of one', () => {
    expect(layout.bodies.some(({ kind }) => kind === 'drummer')).toBe(false);
    const ids = new Set(legBodies(layout.figure!).map(({ body }) => body.id));
    expect(ids.size).toBe(legBodies(layout.figure!).length);
    for (const { check, bodies } of checkedOf(plan, id).findings)
      if (check !== 'legRoom') expect(bodies.some((body) => ids.has(body))).toBe(false);
  });
  test('the sample is clear, or says what is wrong', () => {
    for (const finding of checkedOf(plan, id).findings)
      if (finding.check === 'legRoom') expect(finding.state).toBe('clear');
  });
});
