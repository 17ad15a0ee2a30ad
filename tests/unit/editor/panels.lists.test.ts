/** The lists beside the drawing: findings, pieces, steps. */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../../src/checks/finding.ts';
import { headingText, picked, positionText, sameRows } from '../../../src/editor/panels/findings/pieceRows.ts';
import { newRack } from '../../../src/editor/panels/gear/newPiece.ts';
import { splitPair } from '../../../src/editor/panels/riser/limitPairs.ts';
import { newRiser, nextModule, ratingOf } from '../../../src/editor/panels/riser/riserEdits.ts';
import { findingGroups } from '../../../src/editor/state/findingRows.ts';
import { movedCommand } from '../../../src/editor/state/gestures/carry.ts';
import { nudge, placeCarrying } from '../../../src/editor/state/nudge.ts';
import { CATALOGUE } from '../../../src/gear/catalogue.ts';
import type { GearOf } from '../../../src/gear/schema.ts';
import { gapValue } from '../../../src/geometry/gap.ts';
import { rectangle } from '../../../src/geometry/shapes.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import type { Item, Piece } from '../../../src/plan/schema.ts';

/** A gap of two cymbals, as the checks say it. */
const finding = (id: string, state: Finding['state'], value: number, limit: number) => {
  const code = state === 'blocked' ? 'overlap' : state === 'tight' ? 'too_close' : 'apart';
  const pieces = [id, 'other'] as const;
  const line = [0, 0, 1, 1] as const;
  const common = { bodies: [], unit: 'mm', sense: 'atLeast', source: 'common practice', at: null } as const;
  const parts = [
    { kind: 'tom', part: 'shell' },
    { kind: 'tom', part: 'shell' },
  ] as const;
  const own = { pieces, parts, value, limit, line, space: false, upper: null } as const;
  return { check: 'clearance', code, state, ...own, ...common } as const;
};
const unmeasured: Finding = {
  check: 'gear',
  code: 'unknown_gear',
  state: 'unmeasured',
  pieces: ['e'],
  bodies: [],
  value: null,
  limit: null,
  unit: 'mm',
  sense: null,
  source: 'the plan',
  at: null,
};

describe('findings', () => {
  const all: Finding[] = [
    finding('a', 'clear', 200, 30),
    finding('b', 'tight', 20, 30),
    finding('c', 'blocked', -5, 30),
    finding('d', 'tight', 5, 30),
    unmeasured,
    finding('f', 'blocked', -80, 30),
  ];
  const sentence = (one: Finding) => `Check ${one.pieces[0]} says ${one.value ?? 'nothing'}.`;
  const rows = (query: string, only: Finding['state'][] = []) =>
    findingGroups(all, sentence, query, new Set(only)).map(({ state, rows: members }) => [
      state,
      members.map(({ finding: { pieces } }) => pieces[0]).join(''),
    ]);

  test('worst first, and the furthest below its limit first', () => {
    expect(rows('')).toEqual([
      ['blocked', 'fc'],
      ['tight', 'db'],
      ['unmeasured', 'e'],
      ['clear', 'a'],
    ]);
  });
  test('by state', () => expect(rows('', ['tight'])).toEqual([['tight', 'db']]));
  test('by words, all of them', () => expect(rows('says CHECK b')).toEqual([['tight', 'b']]));
  test('nothing fits', () => expect(rows('nonesuch')).toEqual([]));
  test('two findings of one kind and pair keep two keys', () => {
    const twice = [finding('a', 'tight', 1, 2), finding('a', 'tight', 1.5, 2)];
    const keys = findingGroups(twice, sentence, '', new Set())[0].rows.map(({ key }) => key);
    expect(new Set(keys).size).toBe(2);
  });
});

describe('places in words', () => {
  test.each([
    ['performer’s left is the page’s right', 420, 150, 'mm', '420 mm stage left, 150 mm upstage'],
    ['the other two ways', -420, -150, 'mm', '420 mm stage right, 150 mm downstage'],
    ['on the lines', 0, 0.01, 'mm', 'on the centre line, on the base line'],
    ['inches', 25.4, -1828.8, 'in', `1" stage left, 6' downstage`],
  ] as const)('%s', (_, xMm, yMm, units, text) => {
    expect(positionText({ xMm, yMm, headingDeg: 0 }, units)).toBe(text);
  });

  test.each([
    [0, 'facing the audience'],
    [360, 'facing the audience'],
    [30, 'turned 30° to stage left'],
    [-30, 'turned 30° to stage right'],
    [350, 'turned 10° to stage right'],
  ])('heading %d', (deg, text) => expect(headingText(deg)).toBe(text));
});

describe('picking', () => {
  const all = ['a', 'b', 'c', 'd'];
  /** As a list box that adds and takes away has it. */
  const toggled = (chosen: readonly string[], id: string) =>
    new Set(chosen.includes(id) ? chosen.filter((one) => one !== id) : [...chosen, id]);

  test('law: pressed without Shift or Ctrl, a row is chosen alone, whatever was before', () => {
    for (let bits = 0; bits < 2 ** all.length; bits++) {
      const before = all.filter((_, i) => bits & (1 << i));
      for (const id of all) expect([...picked(new Set(before), toggled(before, id), false)]).toEqual([id]);
    }
  });
  test('with them it is as the list box has it', () => {
    expect([...picked(new Set(['a']), toggled(['a'], 'c'), true)]).toEqual(['a', 'c']);
    expect([...picked(new Set(['a', 'c']), toggled(['a', 'c'], 'c'), true)]).toEqual(['a']);
    expect([...picked(new Set(['b']), new Set(['b', 'c', 'd']), true)]).toEqual(['b', 'c', 'd']);
  });
  test('the set stays the list box’s own: it knows where a range began', () => {
    const now = toggled(['a'], 'b');
    expect(picked(new Set(['a']), now, false)).toBe(now);
  });
  test('the same rows in another order are the same', () => {
    expect(sameRows(new Set(['a', 'b']), ['b', 'a'])).toBe(true);
    expect(sameRows(new Set(['a', 'b']), ['a'])).toBe(false);
    expect(sameRows(new Set(['a']), ['b'])).toBe(false);
  });
});

const item = (id: string, xMm: number, yMm: number, headingDeg = 0): Item => ({
  kind: 'item',
  id,
  name: id,
  gear: 'crash-16',
  place: { xMm, yMm, headingDeg },
  mount: null,
});

describe('steps', () => {
  test('a step moves every piece alike, and leaves headings alone', () => {
    const command = nudge('s', [item('a', 0, 0, 30), item('b', 100, 50)], { dxMm: 10 });
    expect(command.places).toEqual({ a: { xMm: 10, yMm: 0 }, b: { xMm: 110, yMm: 50 } });
  });

  test('one piece turns on the spot', () => {
    const { places } = nudge('s', [item('a', 100, 50, 175)], { turnDeg: 10 });
    expect(places.a).toEqual({ xMm: 100, yMm: 50, headingDeg: -175 });
  });

  test('several turn about their middle', () => {
    const { places } = nudge('s', [item('a', 0, 0), item('b', 200, 0)], { turnDeg: 90 });
    expect(places).toEqual({
      a: { xMm: 100, yMm: -100, headingDeg: 90 },
      b: { xMm: 100, yMm: 100, headingDeg: 90 },
    });
  });

  test('what hangs on a rack comes along when asked, turned about the rack', () => {
    const made = newRack('sideStraight', CATALOGUE, 0, 0, {})!;
    const rack = { ...made, place: { xMm: 50, yMm: -20, headingDeg: 90 } };
    const mount = { carrier: { on: 'bar' as const, rack: rack.id, bar: 'bar-1', atMm: 300 }, clamp: null, arm: null };
    const held: Item = { ...item('held', rack.place.xMm + 100, rack.place.yMm, 10), mount };
    const locked: Item = { ...item('locked', 0, 0), mount, locked: true };
    const pieces = { [rack.id]: rack, held, locked, free: item('free', 5, 5) };
    const setup = { id: 's', name: 's', riser: null, pieces, order: Object.keys(pieces) };
    const turned = placeCarrying({ gear: {} }, setup, rack, { headingDeg: rack.place.headingDeg + 90 }, true);
    expect(turned.places).toEqual({
      [rack.id]: { headingDeg: rack.place.headingDeg + 90 },
      held: { xMm: rack.place.xMm, yMm: rack.place.yMm + 100, headingDeg: 100 },
    });
    expect(Object.keys(placeCarrying({ gear: {} }, setup, rack, { xMm: 1 }, false).places)).toEqual([rack.id]);
    // A height is no motion: nothing comes along.
    expect(Object.keys(placeCarrying({ gear: {} }, setup, held, { heightMm: 700 }, true).places)).toEqual(['held']);
  });

  test('what is on a stand goes with it in any case, and what is in a socket of that', () => {
    const stand = { ...item('stand', 100, 50), gear: 'stand-hi-hat-tripod' };
    const on = { carrier: { on: 'piece' as const, piece: 'stand' }, clamp: null, arm: null };
    const hats: Item = { ...item('hats', 100, 50), gear: 'hi-hats-14', mount: on };
    const locked: Item = { ...hats, id: 'locked', locked: true };
    const pieces = { stand, hats, locked, free: item('free', 5, 5) };
    const setup = { id: 's', name: 's', riser: null, pieces, order: Object.keys(pieces) };
    expect(placeCarrying({ gear: {} }, setup, stand, { xMm: 130 }, false).places).toEqual({
      stand: { xMm: 130 },
      hats: { xMm: 130, yMm: 50 },
    });
    // What sits on it goes nowhere without being told: the stand stays.
    expect(Object.keys(placeCarrying({ gear: {} }, setup, hats, { xMm: 130 }, false).places)).toEqual(['hats']);
    const plan = { ...newPlan('mm'), setups: { s: setup } };
    const motion = { turnDeg: 0, aboutXMm: 0, aboutYMm: 0, dxMm: 7, dyMm: -3 };
    expect(movedCommand({ plan, setup }, ['stand'], false, motion)?.places).toEqual({
      stand: { xMm: 107, yMm: 47 },
      hats: { xMm: 107, yMm: 47 },
    });
  });

  test('there and back is where it was', () => {
    const pieces: Piece[] = [item('a', 13.7, -99.1, 7), item('b', 800, 421.3, -60)];
    let now = pieces;
    for (const turnDeg of [5, 5, -5, -5]) {
      const { places } = nudge('s', now, { turnDeg });
      now = now.map((piece) => ({ ...piece, place: { ...piece.place, ...places[piece.id] } }) as Piece);
    }
    for (const [i, { place }] of now.entries()) {
      expect(place.xMm).toBeCloseTo(pieces[i].place.xMm, 5);
      expect(place.yMm).toBeCloseTo(pieces[i].place.yMm, 5);
      expect(place.headingDeg).toBeCloseTo(pieces[i].place.headingDeg, 8);
    }
  });
});

describe('risers', () => {
  const decks = CATALOGUE.filter((gear): gear is GearOf<'deck'> => gear.kind === 'deck');
  const deck = decks.find(({ id }) => id === 'deck-2x1m')!;

  test('a new module lies flush beside the others, not over them', () => {
    const riser = newRiser(deck, 0, 0, [], 'mm');
    const first = riser.modules[0];
    const second = nextModule(riser.modules, deck);
    const shape = (module: typeof first) =>
      rectangle(module.xMm, module.yMm, module.widthMm, module.depthMm, (module.headingDeg * Math.PI) / 180);
    expect(Math.abs(gapValue(shape(first), shape(second)))).toBeLessThan(1e-6);
    expect(second.xMm - first.xMm).toBeCloseTo(deck.widthMm, 9);
  });

  test('beside a turned module too', () => {
    const turned = { ...newRiser(deck, 0, 0, [], 'mm').modules[0], headingDeg: 90 };
    // Turned as the first is: beside it along its own width.
    expect(nextModule([turned], deck)).toMatchObject({ xMm: 0, yMm: deck.widthMm, headingDeg: 90 });
  });

  test('the weakest deck decides, and an unknown one makes it unknown', () => {
    const rated = { ...deck, ratedKPa: 5 };
    expect(ratingOf([rated, { ...deck, ratedKPa: 7.5 }])).toBe(5);
    expect(ratingOf([rated, { ...deck, ratedKPa: null }])).toBeNull();
    expect(ratingOf([])).toBeNull();
  });
});

test('a pair of kinds is split into its two', () => {
  expect(splitPair('pedal+stand')).toEqual(['pedal', 'stand']);
  expect(splitPair('pedal')).toBeNull();
  expect(splitPair('+pedal')).toBeNull();
});
