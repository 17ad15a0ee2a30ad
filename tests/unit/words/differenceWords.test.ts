/** Differences in words, line by line. */
import { expect, test } from 'vitest';
import { differences } from '../../../src/checks/differences.ts';
import type { Item, Rack, Setup } from '../../../src/plan/schema.ts';
import { differenceLines } from '../../../src/words/differenceWords.ts';
import { samplePlan } from '../../fixtures/plans.ts';

function lines(edit: (setup: Setup) => void): string[] {
  const plan = structuredClone(samplePlan());
  const second = { ...structuredClone(plan.setups.straight), id: 'second' };
  edit(second);
  plan.setups.second = second;
  plan.order.push('second');
  return differenceLines(differences(plan, 'straight', 'second'), plan);
}

test('nothing but the playing layout when nothing differs', () => {
  expect(lines(() => {})).toEqual(['The same playing layout.']);
});

test('a crash moved, raised, and its clamp slid', () => {
  const told = lines((setup) => {
    const crash = setup.pieces.crash as Item;
    Object.assign(crash.place, { xMm: -620, yMm: -410, heightMm: 1000, headingDeg: 10 });
    Object.assign(crash.mount!.carrier, { atMm: 520 });
  });
  expect(told).toEqual([
    'Not the same playing layout: Left crash.',
    'Left crash: moved 50 mm, turned 10° clockwise, 50 mm lower, clamp slid 120 mm',
  ]);
});

test('another tube in the rack, and what it does to the parts', () => {
  const told = lines((setup) => {
    (setup.pieces.left as Rack).spans[0].bars[0].cutLengthMm = 1150;
  });
  expect(told).toEqual([
    'The same playing layout.',
    'Left rack: a bar of 1150 mm in place of 1000 mm, a leg stands 150 mm over',
    '−1 Bar tube',
    '+1 Straight tube, 1150 mm',
  ]);
});

test('a piece that is gone takes its clamp and arm with it', () => {
  const told = lines((setup) => {
    delete setup.pieces.splash;
    setup.order = setup.order.filter((id) => id !== 'splash');
  });
  expect(told).toEqual([
    'Not the same playing layout: Splash.',
    'Splash: removed',
    '−1 Arm clamp',
    '−1 Boom arm',
    '−1 Crash 16',
  ]);
});
