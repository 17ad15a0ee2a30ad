import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Command } from '../../../src/plan/commands/index.ts';
import { emptyHistory, HISTORY_LENGTH, type History, push, redo, undo } from '../../../src/plan/history.ts';
import { planProblem } from '../../../src/plan/rules.ts';
import { planSchema } from '../../../src/plan/schema.ts';
import { bar, item, leg, samplePlan } from '../../fixtures/plans.ts';
import { runs } from '../../fixtures/seeds.ts';

const plan = samplePlan();

function pushed(history: History, command: Command, how?: Parameters<typeof push>[2]): History {
  const result = push(history, command, how);
  if (!result.ok) throw new Error(result.refusal.code);
  return result.history;
}

const nudge = (xMm: number): Command => ({ type: 'placePieces', setup: 'straight', places: { crash: { xMm } } });
const xOf = (history: History) => history.plan.setups.straight.pieces.crash.place.xMm;

describe('undo and redo', () => {
  test('HI-1 step back and on again', () => {
    const two = pushed(pushed(emptyHistory(plan), nudge(1)), nudge(2));
    const one = undo(two).history;
    expect(xOf(one)).toBe(1);
    expect(undo(one).history.plan).toEqual(plan);
    expect(redo(redo(undo(one).history).history).history).toEqual(two);
  });
  test('HI-2 histories are values: an old one can be gone on with', () => {
    const one = pushed(emptyHistory(plan), nudge(1));
    const copy = structuredClone(one);
    pushed(one, nudge(2));
    undo(one);
    expect(one).toEqual(copy);
  });
  test('HI-3 nothing to undo or redo: the same history, no selection', () => {
    const history = emptyHistory(plan);
    expect(undo(history)).toEqual({ history, selection: null });
    expect(redo(history)).toEqual({ history, selection: null });
  });
  test('HI-4 a new command after an undo forgets what could be redone', () => {
    const back = undo(pushed(emptyHistory(plan), nudge(1))).history;
    expect(back.future).toHaveLength(1);
    expect(pushed(back, nudge(5)).future).toEqual([]);
  });
  test('HI-5 a command that changes nothing leaves no entry, and what can be redone', () => {
    const back = undo(pushed(emptyHistory(plan), nudge(1))).history;
    expect(pushed(back, nudge(-650))).toBe(back);
  });
  test('a refused command changes nothing', () => {
    const history = pushed(emptyHistory(plan), nudge(1));
    const result = push(history, nudge(Number.NaN));
    expect(result.ok).toBe(false);
    expect(history.past).toHaveLength(1);
  });
  test('HI-6 the oldest entries are forgotten', () => {
    let history = emptyHistory(plan);
    for (let i = 1; i <= HISTORY_LENGTH + 5; i++) history = pushed(history, nudge(i));
    expect(history.past).toHaveLength(HISTORY_LENGTH);
    while (history.past.length > 0) history = undo(history).history;
    expect(xOf(history)).toBe(5);
  });
});

describe('gestures', () => {
  test('HI-7 steps of one gesture undo as one, with the selection it began with', () => {
    let history = pushed(emptyHistory(plan), nudge(-1), { gesture: 'a', selection: ['crash'] });
    history = pushed(history, nudge(-2), { gesture: 'a', selection: ['crash', 'left'] });
    history = pushed(history, nudge(-3), { gesture: 'a', selection: [] });
    expect(history.past).toHaveLength(1);
    const back = undo(history);
    expect([back.selection, back.history.plan]).toEqual([['crash'], plan]);
    const again = redo(back.history);
    expect([xOf(again.history), again.selection]).toEqual([-3, ['crash']]);
  });
  test('HI-7 a long gesture keeps one patch for each place', () => {
    let history = emptyHistory(plan);
    for (let i = 1; i <= 200; i++) history = pushed(history, nudge(i), { gesture: 'held' });
    expect(history.past[0].patches).toHaveLength(1);
    expect(history.past[0].inverse).toHaveLength(1);
    expect(undo(history).history.plan).toEqual(plan);
  });
  test('HI-7 steps that write different places too', () => {
    let history = pushed(emptyHistory(plan), nudge(1), { gesture: 'a' });
    history = pushed(
      history,
      { type: 'addPiece', setup: 'empty', piece: item('n', 'N', 'tom', 0, 0) },
      { gesture: 'a' },
    );
    history = pushed(history, { type: 'placePieces', setup: 'empty', places: { n: { xMm: 5 } } }, { gesture: 'a' });
    expect(history.past).toHaveLength(1);
    expect(undo(history).history.plan).toEqual(plan);
    expect(redo(undo(history).history).history.plan).toEqual(history.plan);
  });
  test('HI-8 other gestures, no gesture, and the same name after an undo are steps of their own', () => {
    let history = pushed(emptyHistory(plan), nudge(1), { gesture: 'a' });
    history = pushed(history, nudge(2), { gesture: 'b' });
    history = pushed(history, nudge(3));
    history = pushed(history, nudge(4));
    expect(history.past).toHaveLength(4);
    const back = undo(undo(undo(history).history).history).history;
    expect(pushed(back, nudge(9), { gesture: 'a' }).past).toHaveLength(2);
  });
});

describe('random sequences', () => {
  const mm = fc.integer({ min: -3000, max: 3000 });
  const setup = fc.constantFrom('straight', 'empty', 'copy');
  const rack = fc.constantFrom('left', 'front');
  const legId = fc.constantFrom('l1', 'l2', 'l3', 'l9');
  const barId = fc.constantFrom('b1', 'b2', 'b3', 'b9');
  const piece = fc.constantFrom(
    'left',
    'front',
    'crash',
    'tom1',
    'tom2',
    'splash',
    'hat-stand',
    'hat',
    'pedal',
    'n1',
    'n2',
  );
  const bend = fc.option(
    fc.record({
      radiusMm: fc.integer({ min: 150, max: 3000 }),
      straightEndsMm: fc.integer({ min: 0, max: 300 }),
      side: fc.constantFrom('left' as const, 'right' as const),
    }),
  );
  const is = <T extends Command['type']>(type: T) => fc.constant(type);
  const command: fc.Arbitrary<Command> = fc.oneof(
    fc.record({
      type: is('placePieces'),
      setup,
      places: fc.dictionary(piece, fc.record({ xMm: mm, headingDeg: mm }, { requiredKeys: [] }), {
        minKeys: 1,
        maxKeys: 3,
      }),
    }),
    fc.record({
      type: is('addPiece'),
      setup,
      piece: fc.constantFrom(item('n1', 'N1', 'tom', 0, 0), item('n2', 'N2', 'crash', 9, 9)),
      at: fc.nat(5),
    }),
    fc.record({ type: is('removePieces'), setup, pieces: fc.uniqueArray(piece, { minLength: 1, maxLength: 2 }) }),
    fc.record({
      type: is('setPiece'),
      setup,
      piece,
      set: fc.record(
        { locked: fc.constantFrom(true, null), note: fc.string({ maxLength: 9 }), mount: fc.constant(null) },
        { requiredKeys: [] },
      ),
    }),
    fc.record({
      type: is('setBar'),
      setup,
      rack,
      bar: barId,
      set: fc.record(
        { cutLengthMm: fc.integer({ min: 100, max: 1500 }), bend, overhangMm: fc.integer({ min: 0, max: 200 }) },
        { requiredKeys: [] },
      ),
    }),
    fc.record({
      type: is('setLeg'),
      setup,
      rack,
      leg: legId,
      set: fc.record({ lengthMm: fc.integer({ min: 500, max: 1200 }) }),
    }),
    fc.record({
      type: is('setSpan'),
      setup,
      rack,
      span: fc.nat(2),
      set: fc.record({ turnDeg: fc.integer({ min: -90, max: 90 }), farOverhangMm: fc.nat(200) }, { requiredKeys: [] }),
    }),
    fc.record({
      type: is('addLeg'),
      setup,
      rack,
      at: fc.constantFrom('start' as const, 'end' as const),
      leg: fc.constant(leg('l9')),
      span: fc.constant({ turnDeg: 20, farOverhangMm: 0, bars: [bar('b9', 500)] }),
    }),
    fc.record({ type: is('removeLeg'), setup, rack, leg: legId }),
    fc.record({ type: is('addBar'), setup, rack, span: fc.nat(2), bar: fc.constant(bar('b9', 1300, 200)) }),
    fc.record({ type: is('removeBar'), setup, rack, bar: barId }),
    fc.record({ type: is('bendRack'), setup, rack, bend }),
    fc.record({ type: is('turnRackLeg'), setup, rack, leg: legId, xMm: mm, yMm: mm }),
    fc.record({ type: is('duplicateSetup'), setup, id: fc.constant('copy'), name: fc.constant('Copy') }),
    fc.record({ type: is('removeSetup'), setup }),
    fc.record({ type: is('mirrorSetup'), setup, axisXMm: fc.integer({ min: -500, max: 500 }) }),
    fc.record({ type: is('setRiser'), setup, riser: fc.constantFrom('riser', null) }),
    fc.record({ type: is('removeRiser'), riser: fc.constant('riser') }),
    fc.record({
      type: is('addStage'),
      stage: fc.record({
        id: fc.constantFrom('hall', 'barn'),
        name: fc.constant('Stage'),
        outline: fc.array(fc.record({ xMm: mm, yMm: mm }), { minLength: 2, maxLength: 5 }),
        centreXMm: mm,
        wings: fc.constant([]),
      }),
    }),
    fc.record({ type: is('setStage'), setup, stage: fc.constantFrom('hall', 'barn', null) }),
    fc.record({ type: is('removeStage'), stage: fc.constantFrom('hall', 'barn') }),
    fc.record({
      type: is('setLists'),
      setup,
      set: fc.record(
        {
          inputs: fc.option(
            fc.array(
              fc.record({
                id: fc.constantFrom('a', 'b', 'c'),
                source: fc.constant('Tom'),
                piece: fc.constantFrom('crash', 'tom1', 'gone'),
                by: fc.constantFrom('microphone' as const, 'di' as const),
              }),
              { maxLength: 3 },
            ),
          ),
          mixes: fc.option(
            fc.array(
              fc.record({ id: fc.constantFrom('m', 'n'), name: fc.constant('Mix'), by: fc.constant('wedge' as const) }),
              { maxLength: 2 },
            ),
          ),
          cables: fc.option(
            fc.constant([
              {
                id: 'c',
                note: '',
                points: [
                  { xMm: 0.1, yMm: 0 },
                  { xMm: 900, yMm: 70 },
                ],
              },
            ]),
          ),
        },
        { requiredKeys: [] },
      ),
    }),
    fc.record({
      type: is('setPiece'),
      setup,
      piece: fc.constantFrom('hat', 'pedal', 'left'),
      set: fc.record(
        { takes: fc.constantFrom('crash', 'gone', null), mix: fc.constantFrom('m', 'n', null) },
        { requiredKeys: [] },
      ),
    }),
    fc.record({
      type: is('setPartNote'),
      part: fc.constantFrom('boom-1', 'prototype'),
      set: fc.record({ price: fc.option(fc.integer({ min: -5, max: 90 })) }, { requiredKeys: [] }),
    }),
    fc.record({ type: is('setUnits'), units: fc.constantFrom('mm' as const, 'in' as const) }),
    fc.record({ type: is('removeGear'), gear: fc.constantFrom('crash', 'link-1') }),
  ) as fc.Arbitrary<Command>;
  const gesture = fc.constantFrom(undefined, undefined, 'a', 'b');

  test('HI-9 whatever is done, undoing all gives the start, redoing all the end, and every plan on the way is one', () => {
    let done = 0;
    let tried = 0;
    fc.assert(
      fc.property(fc.array(fc.tuple(command, gesture), { minLength: 1, maxLength: 30 }), (steps) => {
        let history = emptyHistory(plan);
        for (const [each, name] of steps) {
          const result = push(history, each, { gesture: name });
          tried++;
          if (!result.ok) continue;
          done++;
          history = result.history;
          expect(planProblem(history.plan)).toBeNull();
        }
        expect(planSchema.safeParse(history.plan).error?.issues ?? []).toEqual([]);
        const end = history.plan;
        while (history.past.length > 0) history = undo(history).history;
        expect(history.plan).toEqual(plan);
        while (history.future.length > 0) history = redo(history).history;
        expect(history.plan).toEqual(end);
      }),
      runs(150, 30),
    );
    // The sequences do something: a good part of the commands was carried out.
    expect(done).toBeGreaterThan(tried / 5);
  }, 60_000);
});
