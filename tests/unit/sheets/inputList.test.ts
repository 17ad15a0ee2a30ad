import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { readPlan } from '../../../src/plan/read.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { inputList } from '../../../src/sheets/inputList.ts';

const item = (id: string, gear: string, xMm = 0, name = ''): Item => ({
  kind: 'item',
  id,
  name,
  gear,
  place: { xMm, yMm: 0, headingDeg: 0 },
  mount: null,
});

function listOf(items: readonly Item[]): string[] {
  const base: Plan = newPlan('Plan');
  const [id] = base.order;
  const pieces = Object.fromEntries(items.map((each) => [each.id, each]));
  return inputList(base, { ...base.setups[id], pieces, order: items.map((each) => each.id) }).map(
    ({ source }) => source,
  );
}

test('drums first, a snare on two channels, one pair of overheads however many cymbals', () => {
  expect(
    listOf([
      item('a', 'crash-16', 0, 'Crash'),
      item('b', 'floor-tom-16x16', 0, 'Floor tom'),
      item('c', 'tom-12x8', 0, 'Tom'),
      item('d', 'snare-14x5.5', 0, 'Snare'),
      item('e', 'bass-22x16', 0, 'Bass drum'),
      item('f', 'hi-hats-14', 0, 'Hats'),
      item('g', 'ride-20', 0, 'Ride'),
    ]),
  ).toEqual([
    'Bass drum',
    'Snare, top',
    'Snare, bottom',
    'Hats',
    'Tom',
    'Floor tom',
    'Overhead, left',
    'Overhead, right',
  ]);
});

test('hi-hats alone need no overheads; nothing that makes no sound is listed', () => {
  expect(listOf([item('h', 'hi-hats-14', 0, 'Hats'), item('t', 'throne-round', 0, 'Throne')])).toEqual(['Hats']);
});

test('the stage’s microphones and direct boxes follow from stage right to left; the kit’s own are not counted twice', () => {
  expect(
    listOf([
      item('v2', 'microphone-stand', 900, 'Vocal 2'),
      item('v1', 'microphone-stand', -900, 'Vocal 1'),
      item('d', 'di-box', 0, 'Keys DI'),
      item('o', 'microphone-stand-boom', 100, 'Overhead, left'),
    ]),
  ).toEqual(['Vocal 1', 'Keys DI', 'Vocal 2']);
});

test('a sample of sixty pieces: channels count up from 1', () => {
  const read = readPlan(readFileSync('samples/sixty-pieces.legroom.json', 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  const { plan } = read;
  const channels = inputList(plan, plan.setups[plan.order[0]]);
  expect(channels.map(({ number }) => number)).toEqual(channels.map((_, k) => k + 1));
  expect(channels.length).toBeGreaterThan(15);
});
