import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { inputList, missingInputs, proposedInputs, withoutChannel } from '../../../src/lists/inputList.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { readPlan } from '../../../src/plan/read.ts';
import type { Input, Item, Plan, Setup } from '../../../src/plan/schema.ts';

const item = (id: string, gear: string, xMm = 0, name = ''): Item => ({
  kind: 'item',
  id,
  name,
  gear,
  place: { xMm, yMm: 0, headingDeg: 0 },
  mount: null,
});

const plan: Plan = newPlan('Plan');

function setupOf(items: readonly Item[], inputs?: Input[]): Setup {
  const pieces = Object.fromEntries(items.map((each) => [each.id, each]));
  return { ...plan.setups[plan.order[0]], pieces, order: items.map((each) => each.id), ...(inputs ? { inputs } : {}) };
}

const listOf = (items: readonly Item[]): string[] => inputList(plan, setupOf(items)).map(({ source }) => source);

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

const kit = [
  item('bass', 'bass-22x16', 0, 'Kick'),
  item('snare', 'snare-14x5.5', 0, 'Snare'),
  item('tom', 'tom-12x8', 0, 'Tom'),
  item('crash', 'crash-16', 0, 'Crash'),
];
const taking = (id: string, gear: string, takes: string, name = ''): Item => ({ ...item(id, gear, 0, name), takes });

test('each proposed channel has a device, a stand and its phantom power', () => {
  const rows = inputList(plan, setupOf(kit)).map(({ number, id, source, piece, by, device, stand, phantom, note }) => [
    number,
    id,
    source,
    piece,
    by,
    device,
    stand,
    phantom,
    note,
  ]);
  expect(rows).toEqual([
    [1, 'in-1', 'Kick', 'bass', 'microphone', 'large-diaphragm dynamic', 'short boom', false, ''],
    [2, 'in-2', 'Snare, top', 'snare', 'microphone', 'dynamic, cardioid', 'short boom', false, ''],
    [3, 'in-3', 'Snare, bottom', 'snare', 'microphone', 'small-diaphragm condenser', 'short boom', true, ''],
    [4, 'in-4', 'Tom', 'tom', 'microphone', 'clip-on condenser', 'clip', true, ''],
    [5, 'in-5', 'Overhead, left', undefined, 'microphone', 'small-diaphragm condenser', 'tall boom', true, ''],
    [6, 'in-6', 'Overhead, right', undefined, 'microphone', 'small-diaphragm condenser', 'tall boom', true, ''],
  ]);
});

test('microphones placed on a piece take its place in the list, one channel each, on the stand that they have', () => {
  const channels = inputList(
    plan,
    setupOf([
      ...kit,
      taking('k1', 'microphone-stand-short', 'bass'),
      taking('k2', 'microphone-stand-short', 'bass'),
      taking('s', 'microphone-stand-short', 'snare', 'Snare over'),
      taking('t', 'microphone-stand-short', 'tom'),
      taking('c', 'microphone-stand-boom', 'crash'),
    ]),
  );
  expect(channels.map(({ source, piece, device, stand }) => [source, piece, device, stand])).toEqual([
    ['Kick, inside', 'bass', 'large-diaphragm dynamic', 'short stand'],
    ['Kick, outside', 'bass', 'large-diaphragm dynamic', 'short stand'],
    ['Snare over', 'snare', 'dynamic, cardioid', 'short stand'],
    ['Tom', 'tom', 'dynamic, cardioid', 'short stand'],
    ['Overhead, left', undefined, 'small-diaphragm condenser', 'tall boom'],
    ['Overhead, right', undefined, 'small-diaphragm condenser', 'tall boom'],
    ['Crash', 'crash', 'small-diaphragm condenser', 'three-leg boom stand'],
  ]);
});

test('amplifiers and keyboards: by what takes them, by what stands close, or proposed; a person by their microphone', () => {
  const channels = inputList(
    plan,
    setupOf([
      item('g', 'amplifier-combo', -3000, 'Guitar'),
      item('near', 'microphone-stand-short', -2800),
      item('b', 'amplifier-bass', -1000, 'Bass'),
      item('k', 'keyboard-88', 1000, 'Keys'),
      { ...item('d', 'di-box', 4000), takes: 'k' },
      item('p', 'person-standing', 2000, 'Ada'),
      { ...item('v', 'microphone-stand', 2100), takes: 'p' },
      item('loner', 'person-standing', 3000, 'No voice'),
    ]),
  );
  expect(channels.map(({ source, piece, by, device, phantom }) => [source, piece, by, device, phantom])).toEqual([
    ['Guitar', 'g', 'microphone', 'dynamic, cardioid', false],
    ['Bass', 'b', 'di', 'DI, active', true],
    ['Keys', 'k', 'di', 'DI, passive', false],
    ['Ada', 'p', 'microphone', 'vocal dynamic', false],
  ]);
});

test('a microphone that took a piece which is gone stands for itself', () => {
  expect(listOf([taking('v', 'microphone-stand', 'ghost', 'Vocal')])).toEqual(['Vocal']);
});

test('a list of the setup’s own is shown as it was written, empty too', () => {
  const inputs: Input[] = [
    { id: 'z', source: 'Tom mic', by: 'line' },
    {
      id: 'a',
      source: 'Kick',
      piece: 'bass',
      by: 'microphone',
      device: 'mine',
      stand: 'none',
      phantom: true,
      note: 'n',
    },
  ];
  expect(inputList(plan, setupOf(kit, inputs))).toEqual([
    { number: 1, id: 'z', source: 'Tom mic', by: 'line', device: '', stand: '', phantom: false, note: '' },
    { number: 2, ...inputs[1] },
  ]);
  expect(inputList(plan, setupOf(kit, []))).toEqual([]);
  expect(proposedInputs(plan, setupOf(kit, inputs))).toEqual(proposedInputs(plan, setupOf(kit)));
});

test('what an own list leaves out is named, and its lines come with ids that are free', () => {
  const inputs: Input[] = [
    { id: 'in-1', source: 'Kick', piece: 'bass', by: 'microphone' },
    { id: 'in-3', source: 'snare TOP', by: 'microphone' },
  ];
  const setup = setupOf(kit, inputs);
  expect(withoutChannel(plan, setup)).toEqual(['Tom', 'Cymbals']);
  expect(missingInputs(plan, setup).map(({ id, source }) => [id, source])).toEqual([
    ['in-2', 'Tom'],
    ['in-4', 'Overhead, left'],
    ['in-5', 'Overhead, right'],
  ]);
  const whole = setupOf(kit, [...inputs, ...missingInputs(plan, setup)]);
  expect(withoutChannel(plan, whole)).toEqual([]);
  // A cymbal with a channel of its own needs no overheads.
  const crash: Input = { id: 'c', source: 'Crash', piece: 'crash', by: 'microphone' };
  expect(withoutChannel(plan, setupOf(kit, [...inputs, crash]))).toEqual(['Tom']);
  expect(withoutChannel(plan, setupOf(kit))).toEqual([]);
});
