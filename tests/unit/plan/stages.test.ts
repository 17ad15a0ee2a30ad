import { describe, expect, test } from 'vitest';
import type { Command } from '../../../src/plan/commands/index.ts';
import type { Cable, Input, Item, Mix, Plan, Stage } from '../../../src/plan/schema.ts';
import { item, samplePlan } from '../../fixtures/plans.ts';
import { type Broken, broken, expectProblem, SETUP, straight } from './broken.ts';
import { expectLaws, expectRefusal } from './laws.ts';

const plan = samplePlan();
const setup = 'straight';

const stage: Stage = {
  id: 'hall',
  name: 'The hall',
  outline: [
    { xMm: -4000, yMm: -2000 },
    { xMm: 4000, yMm: -2000 },
    { xMm: 4000, yMm: 3000 },
    { xMm: -4000, yMm: 3000 },
  ],
  centreXMm: 0,
  wings: [
    {
      id: 'w1',
      name: 'Wing, stage left',
      outline: [
        { xMm: 4000, yMm: -1000 },
        { xMm: 6000, yMm: -1000 },
        { xMm: 6000, yMm: 3000 },
      ],
    },
  ],
};
const inputs: Input[] = [
  { id: 'a', source: 'Crash', piece: 'crash', by: 'microphone', device: 'condenser', phantom: true },
  { id: 'b', source: 'Keys', by: 'di', note: 'stereo' },
];
const mixes: Mix[] = [
  { id: 'm1', name: 'Drums', by: 'wedge', wants: 'kick, bass' },
  { id: 'm2', name: 'Voice', by: 'inEar' },
];
const cables: Cable[] = [
  {
    id: 'c1',
    note: 'Multicore',
    points: [
      { xMm: -100, yMm: 0 },
      { xMm: 2500, yMm: 1000 },
    ],
  },
];

const staged = expectLaws(plan, { type: 'addStage', stage });
const listed = expectLaws(plan, {
  type: 'setLists',
  setup,
  set: { inputs, mixes, cables, venueProvides: ['Riser 8 x 8 ft', 'Two power drops'] },
});
const asMicrophone = (from: Plan, takes: string): Plan =>
  expectLaws(from, { type: 'setPiece', setup, piece: 'hat-stand', set: { takes } });

describe('stages', () => {
  test('DO-6 add, edit, remove; setups that stood on it have none', () => {
    expect(staged.stages).toEqual({ hall: stage });
    const edited = expectLaws(staged, {
      type: 'editStage',
      stage: 'hall',
      set: { name: 'Barn', centreXMm: 200, wings: [] },
    });
    expect(edited.stages?.hall).toEqual({ ...stage, name: 'Barn', centreXMm: 200, wings: [] });
    const stood = expectLaws(staged, { type: 'setStage', setup, stage: 'hall' });
    const two = expectLaws(stood, { type: 'addStage', stage: { ...stage, id: 'other' } });
    expect(Object.keys(expectLaws(two, { type: 'removeStage', stage: 'hall' }).stages ?? {})).toEqual(['other']);
    expect(expectLaws(stood, { type: 'removeStage', stage: 'hall' })).toEqual(plan);
  });
  test('SE-9 which stage a setup stands on', () => {
    const stood = expectLaws(staged, { type: 'setStage', setup, stage: 'hall' });
    expect([stood.setups.straight.stage, stood.setups.empty.stage]).toEqual(['hall', undefined]);
    expect(expectLaws(stood, { type: 'setStage', setup, stage: null })).toEqual(staged);
  });
  test('refusals', () => {
    expectRefusal(staged, { type: 'addStage', stage }, 'id_taken', /a stage with the id "hall"/);
    expectRefusal(plan, { type: 'addStage', stage: { ...stage, id: 'prototype' } }, 'id_unusable', /cannot be used/);
    expectRefusal(plan, { type: 'editStage', stage: 'toString', set: { name: 'x' } }, 'unknown', /no stage "toString"/);
    expectRefusal(staged, { type: 'editStage', stage: 'hall', set: {} }, 'nothing_asked', /Nothing/);
    expectRefusal(plan, { type: 'removeStage', stage: 'hall' }, 'unknown', /The plan has no stage "hall"/);
    expectRefusal(plan, { type: 'setStage', setup, stage: 'hall' }, 'unknown', /The plan has no stage "hall"/);
    expectRefusal(staged, { type: 'setStage', setup: 'no', stage: 'hall' }, 'unknown', /no setup "no"/);
    expectRefusal(
      staged,
      { type: 'editStage', stage: 'hall', set: { outline: stage.outline.slice(1, 3) } },
      'breaks_plan',
      /^Stage "The hall": "outline" has 2 entries, and the least is 3\.$/,
    );
    expectRefusal(
      staged,
      { type: 'editStage', stage: 'hall', set: { outline: [...stage.outline, { xMm: 90_000, yMm: 0 }] } },
      'breaks_plan',
      /^Stage "The hall", corner 5: "xMm" is 90000, and must be at most 50000\.$/,
    );
    expectRefusal(
      staged,
      { type: 'editStage', stage: 'hall', set: { wings: [stage.wings[0], stage.wings[0]] } },
      'breaks_plan',
      /^Stage "The hall", wing 2: another wing of this stage has its id "w1" already\.$/,
    );
    const full: Plan = { ...plan, stages: {} };
    for (let i = 0; i < 40; i++) full.stages![`s${i}`] = { ...stage, id: `s${i}` };
    expectRefusal(
      full,
      { type: 'addStage', stage },
      'breaks_plan',
      /^The plan: it has 41 stages, and the most is 40\.$/,
    );
  });
});

describe('what a setup tells the venue', () => {
  test('SE-10 setLists writes the lists that it names whole, and null takes one away', () => {
    expect(listed.setups.straight).toEqual({
      ...plan.setups.straight,
      inputs,
      mixes,
      cables,
      venueProvides: ['Riser 8 x 8 ft', 'Two power drops'],
    });
    const turned = expectLaws(listed, { type: 'setLists', setup, set: { inputs: [inputs[1], inputs[0]] } });
    expect(turned.setups.straight.inputs?.map(({ id }) => id)).toEqual(['b', 'a']);
    expect(turned.setups.straight.mixes).toBe(listed.setups.straight.mixes);
    const none = { inputs: null, mixes: null, cables: null, venueProvides: null };
    expect(expectLaws(listed, { type: 'setLists', setup, set: none })).toEqual(plan);
    // An empty list is a list: nothing is proposed in its place.
    expect(expectLaws(listed, { type: 'setLists', setup, set: { inputs: [] } }).setups.straight.inputs).toEqual([]);
  });
  test('SE-11 a piece loses a mix that is no longer in the list, and keeps the others', () => {
    const wedge = item('wedge', 'Wedge', 'wedge-12in', 0, 0) as Item;
    const both = expectLaws(listed, {
      type: 'many',
      commands: [
        { type: 'addPiece', setup, piece: { ...wedge, mix: 'm1' } },
        { type: 'addPiece', setup, piece: { ...wedge, id: 'wedge-2', mix: 'm2' } },
      ],
    });
    const less = expectLaws(both, { type: 'setLists', setup, set: { mixes: [mixes[1]] } }).setups.straight.pieces;
    expect([(less.wedge as Item).mix, (less['wedge-2'] as Item).mix]).toEqual([undefined, 'm2']);
    const none = expectLaws(both, { type: 'setLists', setup, set: { mixes: null } }).setups.straight.pieces;
    expect((none['wedge-2'] as Item).mix).toBeUndefined();
  });
  test('SE-12 mirrorSetup mirrors the cable runs; the stage stays', () => {
    const mirrored = expectLaws(listed, { type: 'mirrorSetup', setup, axisXMm: 50 });
    expect(mirrored.setups.straight.cables?.[0].points).toEqual([
      { xMm: 200, yMm: 0 },
      { xMm: -2400, yMm: 1000 },
    ]);
    expect(mirrored.setups.straight.inputs).toEqual(inputs);
    expect(expectLaws(staged, { type: 'mirrorSetup', setup, axisXMm: 50 }).stages).toBe(staged.stages);
  });
  test('SE-1 a copy keeps the stage and every list', () => {
    const whole = expectLaws(listed, {
      type: 'many',
      commands: [
        { type: 'addStage', stage },
        { type: 'setStage', setup, stage: 'hall' },
      ],
    });
    const copy = expectLaws(whole, { type: 'duplicateSetup', setup, id: 'copy', name: 'Copy' }).setups.copy;
    expect(copy).toEqual({ ...whole.setups.straight, id: 'copy', name: 'Copy' });
    expect([copy.stage, copy.inputs?.length, copy.cables?.length]).toEqual(['hall', 2, 1]);
  });
  test('refusals', () => {
    const lists = (set: Broken): Command => ({ type: 'setLists', setup, set });
    expectRefusal(plan, lists({}), 'nothing_asked', /Nothing/);
    expectRefusal(plan, { type: 'setLists', setup: 'no', set: { inputs: [] } }, 'unknown', /no setup "no"/);
    for (const [list, entry, words] of [
      ['inputs', inputs[0], 'input 2: another input of this setup has its id "a"'],
      ['mixes', mixes[0], 'mix 2: another mix of this setup has its id "m1"'],
      ['cables', cables[0], 'cable run 2: another cable run of this setup has its id "c1"'],
    ] as const)
      expectRefusal(
        plan,
        lists({ [list]: [entry, entry] }),
        'breaks_plan',
        new RegExp(`^${SETUP}, ${words} already\\.$`),
      );
    expectRefusal(
      plan,
      lists({ inputs: [{ ...inputs[0], source: 'x'.repeat(121) }] }),
      'breaks_plan',
      /^Setup "Straight racks", input 1: "source" has 121 characters, and the most is 120\.$/,
    );
    expectRefusal(
      plan,
      lists({ inputs: Array.from({ length: 201 }, (_, k) => ({ ...inputs[1], id: `i${k}` })) }),
      'breaks_plan',
      /^Setup "Straight racks": "inputs" has 201 entries, and the most is 200\.$/,
    );
  });
});

describe('pieces on the stage', () => {
  test('PC-13 setPiece writes takes, mix and power, and null takes them away', () => {
    const set = { takes: 'tom1', mix: 'm1', power: { volts: 230, loadW: 1500 } };
    const after = expectLaws(listed, { type: 'setPiece', setup, piece: 'hat', set });
    expect(after.setups.straight.pieces.hat).toEqual({ ...listed.setups.straight.pieces.hat, ...set });
    const none = { takes: null, mix: null, power: null };
    expect(expectLaws(after, { type: 'setPiece', setup, piece: 'hat', set: none })).toEqual(listed);
    expectRefusal(
      listed,
      { type: 'setPiece', setup, piece: 'hat', set: { power: { volts: 0, loadW: null } } },
      'breaks_plan',
      /, power: "volts" is 0, and must be at least 1\.$/,
    );
    expectRefusal(listed, { type: 'setPiece', setup, piece: 'left', set: { mix: 'm1' } }, 'not_an_item', /is a rack/);
  });
  test('PC-14 of a removed piece nothing is taken any longer: not by a microphone, not by a line of the list', () => {
    const before = asMicrophone(listed, 'crash');
    const after = expectLaws(before, { type: 'removePieces', setup, pieces: ['crash'] }).setups.straight;
    expect((after.pieces['hat-stand'] as Item).takes).toBeUndefined();
    const { piece: _, ...bare } = inputs[0];
    expect(after.inputs).toEqual([bare, inputs[1]]);
    const other = expectLaws(before, { type: 'removePieces', setup, pieces: ['splash'] }).setups.straight;
    expect([(other.pieces['hat-stand'] as Item).takes, other.inputs]).toEqual(['crash', inputs]);
  });
});

describe('prices, currency, revision', () => {
  test('DO-7 each is written, and null takes it away', () => {
    const priced = expectLaws(plan, { type: 'setPartNote', part: 'boom-1', set: { price: 45.5, note: 'spare' } });
    expect(priced.partNotes).toEqual({ 'boom-1': { price: 45.5, note: 'spare' } });
    const noted = expectLaws(priced, { type: 'setPartNote', part: 'boom-1', set: { price: null } });
    expect(noted.partNotes).toEqual({ 'boom-1': { note: 'spare' } });
    expect(expectLaws(noted, { type: 'setPartNote', part: 'boom-1', set: { note: null } })).toEqual(plan);
    const sheets = expectLaws(plan, { type: 'setNotes', currency: 'EUR', revision: 'C' });
    expect(sheets).toEqual({ ...plan, currency: 'EUR', revision: 'C' });
    expect(expectLaws(sheets, { type: 'setNotes', currency: null, revision: null })).toEqual(plan);
  });
  test('refusals', () => {
    expectRefusal(plan, { type: 'setPartNote', part: 'x', set: {} }, 'nothing_asked', /Nothing/);
    expectRefusal(
      plan,
      { type: 'setPartNote', part: 'constructor', set: { price: 1 } },
      'id_unusable',
      /cannot be used/,
    );
    expectRefusal(
      plan,
      { type: 'setPartNote', part: 'boom-1', set: { price: -1 } },
      'breaks_plan',
      /^Part note "boom-1": "price" is -1, and must be at least 0\.$/,
    );
    expectRefusal(plan, { type: 'setNotes', setup: 'empty', revision: 'B' }, 'nothing_asked', /Nothing/);
    expectRefusal(plan, { type: 'setNotes', revision: 'x'.repeat(21) }, 'breaks_plan', /"revision" has 21 characters/);
  });
});

describe('RD-3 PL-17 PL-18 PL-20 files that are broken here', () => {
  const withLists = (change: (plan: Broken) => void) =>
    broken((each) => {
      Object.assign(
        straight(each),
        structuredClone({ stage: 'hall', inputs, mixes, cables, venueProvides: ['Riser'] }),
      );
      each.stages = structuredClone({ hall: stage });
      change(each);
    });
  const STAGE = 'Stage "The hall"';
  test.each<[string, (plan: Broken) => void, string, string, string]>([
    [
      'no stage',
      (p) => delete p.stages,
      'unknown_stage',
      SETUP,
      'it stands on stage "hall", which is not in this plan.',
    ],
    [
      'key',
      (p) => {
        p.stages.hall.id = 'x';
      },
      'id_differs',
      STAGE,
      'its id is "x", but it stands under "hall".',
    ],
    [
      'wing twice',
      (p) => p.stages.hall.wings.push(stage.wings[0]),
      'doubled_id',
      `${STAGE}, wing 2`,
      'another wing of this stage has its id "w1" already.',
    ],
    [
      'corner',
      (p) => {
        p.stages.hall.outline[1] = { xMm: 3 };
      },
      'missing_field',
      `${STAGE}, corner 2`,
      '"yMm" is missing.',
    ],
    [
      'wing corner',
      (p) => {
        p.stages.hall.wings[0].outline[2].xMm = 'far';
      },
      'wrong_type',
      `${STAGE}, wing 1, corner 3`,
      '"xMm" must be a number, not the text "far".',
    ],
    [
      'outline',
      (p) => {
        p.stages.hall.outline = 'round';
      },
      'wrong_type',
      STAGE,
      '"outline" must be a list in brackets, not the text "round".',
    ],
    [
      'input kind',
      (p) => {
        straight(p).inputs[1].by = 'air';
      },
      'wrong_value',
      `${SETUP}, input 2`,
      '"by" must be "microphone", "di" or "line", not the text "air".',
    ],
    [
      'input without source',
      (p) => {
        delete straight(p).inputs[0].source;
      },
      'missing_field',
      `${SETUP}, input 1`,
      '"source" is missing.',
    ],
    [
      'input is no object',
      (p) => {
        straight(p).inputs[1] = 'Kick';
      },
      'wrong_type',
      `${SETUP}, input 2`,
      'it must be an object in braces, not the text "Kick".',
    ],
    [
      'phantom',
      (p) => {
        straight(p).inputs[0].phantom = 48;
      },
      'wrong_type',
      `${SETUP}, input 1`,
      '"phantom" must be true or false, not 48.',
    ],
    [
      'input twice',
      (p) => {
        straight(p).inputs[1].id = 'a';
      },
      'doubled_id',
      `${SETUP}, input 2`,
      'another input of this setup has its id "a" already.',
    ],
    [
      'mix',
      (p) => {
        straight(p).mixes[0].by = 'ear';
      },
      'wrong_value',
      `${SETUP}, mix 1`,
      '"by" must be "wedge" or "inEar", not the text "ear".',
    ],
    [
      'cable',
      (p) => straight(p).cables[0].points.pop(),
      'out_of_range',
      `${SETUP}, cable run 1`,
      '"points" has 1 entries, and the least is 2.',
    ],
    [
      'cable point',
      (p) => {
        straight(p).cables[0].points[1].yMm = null;
      },
      'wrong_type',
      `${SETUP}, cable run 1, point 2`,
      '"yMm" must be a number, not null.',
    ],
    [
      'venue',
      (p) => {
        straight(p).venueProvides[0] = 7;
      },
      'wrong_type',
      `${SETUP}, line for the venue 1`,
      'it must be text, not 7.',
    ],
    [
      'power',
      (p) => {
        straight(p).pieces.hat.power = { volts: 230 };
      },
      'missing_field',
      `${SETUP}, piece "Hi-hat", power`,
      '"loadW" is missing.',
    ],
    [
      'a stage of nothing',
      (p) => {
        for (const corner of p.stages.hall.outline) corner.yMm = 7;
      },
      'outline_too_thin',
      STAGE,
      'its outline is only 0 mm across, and must be at least 500 mm wide and deep.',
    ],
    [
      'price',
      (p) => {
        p.partNotes = { cap: { price: 'dear' } };
      },
      'wrong_type',
      'Part note "cap"',
      '"price" must be a number, not the text "dear".',
    ],
  ])('%s', (_, change, code, place, reason) => expectProblem(withLists(change), code, place, `${place}: ${reason}`));
});
