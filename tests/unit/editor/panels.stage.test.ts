/** What the stage's panels work out before they ask the plan. */
import { describe, expect, test } from 'vitest';
import { measureOf, readField } from '../../../src/editor/panels/fields/measures.ts';
import { gearOfPlan } from '../../../src/editor/panels/gear/shelf.ts';
import { takenAt } from '../../../src/editor/panels/gear/takenAt.ts';
import { changed, moved, nextId } from '../../../src/editor/panels/stage/listEdits.ts';
import {
  boxCorners,
  boxOf,
  newStage,
  wingWidth,
  withBox,
  withCorner,
  withWing,
} from '../../../src/editor/panels/stage/stageEdits.ts';
import { mixPerWedge } from '../../../src/editor/panels/stage/stageLists.ts';
import { newTaker, usualTaker } from '../../../src/editor/panels/stage/TakenFields.tsx';
import { gearOf } from '../../../src/gear/catalogue.ts';
import { gapValue } from '../../../src/geometry/gap.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { inputList } from '../../../src/lists/inputList.ts';
import { powerOf } from '../../../src/lists/power.ts';
import { stageItems } from '../../../src/lists/stageItems.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { readPlan } from '../../../src/plan/read.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan, Setup, Stage } from '../../../src/plan/schema.ts';
import { runLengthMm } from '../../../src/plan/stages.ts';
import { powerText, proposedVenueLines } from '../../../src/words/stageWords.ts';
import { samplePlanText } from './samplePlan.ts';

const plan: Plan = newPlan('Plan');
const item = (id: string, gear: string, xMm: number, yMm: number, more: Partial<Item> = {}): Item => ({
  kind: 'item',
  id,
  name: id,
  gear,
  place: { xMm, yMm, headingDeg: 0 },
  mount: null,
  ...more,
});
const setupOf = (items: readonly Item[], more: Partial<Setup> = {}): Setup => ({
  ...plan.setups[plan.order[0]],
  pieces: Object.fromEntries(items.map((one) => [one.id, one])),
  order: items.map(({ id }) => id),
  ...more,
});

describe('lists', () => {
  const list = [{ id: 'a' }, { id: 'b' }, { id: 'c' }];
  const ids = (of: readonly { id: string }[]) => of.map(({ id }) => id).join('');
  test('an entry moves as far as the ends allow', () => {
    expect(ids(moved(list, 2, -1))).toBe('acb');
    expect(ids(moved(list, 0, 1))).toBe('bac');
    expect(ids(moved(list, 0, 9))).toBe('bca');
    for (const [at, by] of [
      [0, -1],
      [2, 1],
      [-1, 1],
      [3, -1],
    ])
      expect(moved(list, at, by)).toBe(list);
  });
  test('fields are set, and taken away by undefined', () => {
    const lines = [
      { id: 'a', note: 'x' as string | undefined },
      { id: 'b', note: 'y' as string | undefined },
    ];
    expect(changed(lines, 'a', { note: 'z' })).toEqual([{ id: 'a', note: 'z' }, lines[1]]);
    expect(Object.keys(changed(lines, 'b', { note: undefined })[1])).toEqual(['id']);
  });
  test('a new id is one that is free', () => {
    expect(nextId('mix', [])).toBe('mix-1');
    expect(nextId('mix', [{ id: 'mix-1' }, { id: 'mix-3' }])).toBe('mix-2');
  });
});

describe('stage outlines', () => {
  const box = { middleXMm: 100, frontYMm: -2000, widthMm: 8000, depthMm: 5000 };
  const stage: Stage = { id: 's', name: 'S', outline: boxCorners(box), centreXMm: 100, wings: [] };
  test('a rectangle is known as one, whichever corner it begins at and whichever way it goes', () => {
    const corners = boxCorners(box);
    expect(corners[0]).toEqual({ xMm: -3900, yMm: -2000 });
    for (let k = 0; k < 4; k++) expect(boxOf([...corners.slice(k), ...corners.slice(0, k)])).toEqual(box);
    expect(boxOf(corners.toReversed())).toEqual(box);
  });
  test('other outlines are none: five corners, askew, crossed, flat', () => {
    const [a, b, c, d] = boxCorners(box);
    expect(boxOf(withCorner([a, b, c, d], 0))).toBeNull();
    expect(boxOf([a, { ...b, yMm: -1999 }, c, d])).toBeNull();
    expect(boxOf([a, c, b, d])).toBeNull();
    expect(boxOf([a, b, b, a])).toBeNull();
    expect(boxOf([a, b, c])).toBeNull();
  });
  test('wings lie along the sides; stage left is the page’s right', () => {
    const left = { ...stage, wings: withWing(stage, 'left', 1500) };
    expect(boxOf(left.wings[0].outline)).toEqual({ middleXMm: 4850, frontYMm: -2000, widthMm: 1500, depthMm: 5000 });
    expect([wingWidth(left, 'left'), wingWidth(left, 'right')]).toEqual([1500, 0]);
    const both = { ...left, wings: withWing(left, 'right', 900) };
    expect(boxOf(both.wings[1].outline)?.middleXMm).toBe(-4350);
    expect(withWing(both, 'left', 0)).toEqual([both.wings[1]]);
  });
  test('a stage made wider takes its wings and its centre line along; a wing of another shape stays', () => {
    const odd = { id: 'odd', name: 'Dock', outline: withCorner(boxCorners(box), 1) };
    const winged = { ...stage, wings: [odd, ...withWing(stage, 'right', 900)] };
    const wider = { ...winged, ...withBox(winged, { ...box, widthMm: 10_000, middleXMm: 0 }) };
    expect([boxOf(wider.outline)?.widthMm, wingWidth(wider, 'right'), wider.centreXMm]).toEqual([10_000, 900, 0]);
    expect(wider.wings.find(({ id }) => id === 'odd')).toBe(odd);
    const own = { ...winged, centreXMm: 250 };
    expect(withBox(own, { ...box, middleXMm: 0 }).centreXMm).toBe(250);
  });
  test('a first guess holds the kit and its riser, the kit at the back', () => {
    const read = readPlan(samplePlanText());
    if (!read.ok) throw new Error(read.problem.sentence);
    for (const id of read.plan.order) {
      const setup = read.plan.setups[id];
      const guess = newStage(read.plan, setup);
      const { middleXMm, frontYMm, widthMm, depthMm } = boxOf(guess.outline)!;
      for (const { place } of Object.values(setup.pieces)) {
        expect(Math.abs(place.xMm - middleXMm)).toBeLessThan(widthMm / 2);
        expect(place.yMm).toBeGreaterThan(frontYMm);
        expect(place.yMm).toBeLessThan(frontYMm + depthMm);
      }
      const command = { type: 'addStage' as const, stage: guess };
      expect(runCommand(read.plan, command).ok).toBe(true);
    }
  });
});

describe('power, mixes, venue', () => {
  const drops = [
    item('p1', 'power-drop', 0, 0, { power: { volts: 230, loadW: 1500 } }),
    item('p2', 'power-drop', 0, 500, { power: { volts: 230, loadW: null } }),
    item('p3', 'power-drop', 0, 900),
  ];
  test('loads add up, and unknown ones are told', () => {
    expect(powerOf(plan, drops)).toMatchObject({ drops: { length: 3 }, loadW: 1500, unknown: 2 });
    expect(powerText(powerOf(plan, drops))).toBe('Together 1.5 kW on 3 power drops; the load of 2 is not known.');
    expect(powerText(powerOf(plan, drops.slice(0, 1)))).toBe('Together 1.5 kW on one power drop.');
    expect(powerText(powerOf(plan, drops.slice(2)))).toBe('Together 0 W on one power drop; no load known.');
    expect(powerText(powerOf(plan, []))).toBe('No power drop stands in this setup.');
  });
  test('voltages and loads are read with their units', () => {
    expect(readField(measureOf('voltage', 'mm'), '230')).toEqual({ ok: true, value: 230 });
    expect(readField(measureOf('voltage', 'mm'), '120 V')).toEqual({ ok: true, value: 120 });
    expect(readField(measureOf('load', 'mm'), '1,5 kW')).toEqual({ ok: true, value: 1500 });
    expect(readField(measureOf('load', 'mm', { least: 0 }), '-1')).toEqual({
      ok: false,
      sentence: 'The least is 0 W.',
    });
    expect(readField(measureOf('voltage', 'mm'), 'mains')).toMatchObject({ ok: false });
  });
  test('a mix for each wedge that has none, for who stands at it, and a plan that is read', () => {
    const setup = setupOf(
      [
        item('w1', 'wedge-12in', 0, 0, { mix: 'mix-1' }),
        item('w2', 'wedge-12in', 3000, 0),
        item('w3', 'wedge-12in', -6000, 0),
        item('Ada', 'person-standing', 3000, 900),
      ],
      { mixes: [{ id: 'mix-1', name: 'Drums', by: 'wedge' }] },
    );
    const whole: Plan = { ...plan, setups: { ...plan.setups, [setup.id]: setup } };
    const ran = runCommand(whole, { type: 'many', commands: mixPerWedge(whole, setup) });
    if (!ran.ok) throw new Error('refused');
    const after = ran.plan.setups[setup.id];
    expect(after.mixes?.map(({ id, name }) => [id, name])).toEqual([
      ['mix-1', 'Drums'],
      ['mix-2', 'Ada'],
      ['mix-3', 'w3'],
    ]);
    expect(stageItems(ran.plan, after, 'wedge').map(({ mix }) => mix)).toEqual(['mix-1', 'mix-2', 'mix-3']);
    expect(mixPerWedge(ran.plan, after)).toEqual([]);
  });
  test('the venue’s lines follow from the plan', () => {
    const setup = setupOf([item('Snare', 'snare-14x5.5', 0, 0), ...drops.slice(0, 1), item('w', 'wedge-12in', 0, 0)], {
      mixes: [{ id: 'm', name: 'Drums', by: 'wedge' }],
    });
    expect(proposedVenueLines(plan, setup, 'mm')).toEqual([
      'Riser 3 x 2 m, 400 mm high, legs braced',
      '2 channels at the console, 1 with phantom power',
      '1 monitor mix, 1 wedge',
      'p1: 230 V, 1.5 kW',
    ]);
  });
  test('a cable run is as long as its legs together', () => {
    const points = [
      { xMm: 0, yMm: 0 },
      { xMm: 3000, yMm: 4000 },
      { xMm: 3000, yMm: 5000 },
    ];
    expect(runLengthMm({ points })).toBe(6000);
  });
});

test('a microphone let go at a drum takes it; one let go elsewhere, and anything else, takes nothing', () => {
  const setup = setupOf([item('Snare', 'snare-14x5.5', 0, 0), item('Amp', 'amplifier-combo', 2000, 0)]);
  const mic = gearOf({}, 'microphone-stand-short')!;
  const at = (x: number, y: number, gear = mic) => takenAt(plan, setup, gear, x, y);
  expect(at(150, 0)).toBe('Snare');
  expect(at(300, 0)).toBe('Snare');
  expect(at(800, 0)).toBeUndefined();
  expect(at(2100, 100)).toBe('Amp');
  expect(at(0, 0, gearOf({}, 'wedge-12in')!)).toBeUndefined();
});

test('a microphone put to a drum stands free of everything, takes it, and is on the list', () => {
  const read = readPlan(samplePlanText());
  if (!read.ok) throw new Error(read.problem.sentence);
  const gear = gearOfPlan(read.plan);
  const setup = read.plan.setups.straight;
  const snare = setup.pieces.snare as Item;
  const usual = usualTaker(gear, gearOf({}, snare.gear)!)!;
  expect([usual.use, usualTaker(gear, gearOf({}, 'keyboard-88')!)?.use]).toEqual(['microphone', 'di']);
  const ran = runCommand(read.plan, {
    type: 'addPiece',
    setup: 'straight',
    piece: newTaker(read.plan, 'straight', usual, snare),
  });
  if (!ran.ok) throw new Error('refused');
  const after = ran.plan.setups.straight;
  const { bodies } = layoutSetup(ran.plan, 'straight');
  const id = after.order[after.order.length - 1];
  const mine = bodies.filter((body) => body.piece === id);
  expect(mine.length).toBe(1);
  for (const body of bodies) if (body.piece !== id) expect(gapValue(mine[0].shape, body.shape)).toBeGreaterThan(0);
  expect(inputList(ran.plan, after).filter(({ piece }) => piece === 'snare').length).toBe(1);
});
