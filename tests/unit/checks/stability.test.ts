import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { restingOn } from '../../../src/checks/resting.ts';
import { type AssemblyReading, assembliesOf, assemblyReadings, stability } from '../../../src/checks/stability.ts';
import { GRAVITY, supportPoints, tipMargin } from '../../../src/checks/statics.ts';
import { deckMargin, pointInDeck } from '../../../src/geometry/deck.ts';
import { gap } from '../../../src/geometry/gap.ts';
import { capsule, disc, moved, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import type { Body } from '../../../src/layout/body.ts';
import { type DeckLayout, layoutSetup } from '../../../src/layout/layout.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { runs } from '../../fixtures/seeds.ts';

const body = (id: string, shape: Swept, part: Partial<Body>): Body => ({
  id,
  piece: id,
  part: id,
  label: id,
  kind: 'stand',
  assembly: 'a',
  touchesFloor: false,
  z0: 0,
  z1: 100,
  shape,
  massKg: 0,
  massCentre: null,
  ...part,
});
const plan = samplePlan();
const read = (bodies: readonly Body[], p = plan): AssemblyReading => assemblyReadings(p, null, assembliesOf(bodies))[0];

/** A block of 400 x 300 on the floor, 1 m high, even. */
const block = body('block', rectangle(0, 0, 400, 300, 0), {
  touchesFloor: true,
  z1: 1000,
  massKg: 20,
  massCentre: [0, 0, 500],
});

describe('closed forms', () => {
  test('a block: margin half its short side, angle atan(150/500), push at its top', () => {
    const reading = read([block]);
    expect(reading.mass).toBe(20);
    expect(reading.centre).toEqual([0, 0, 500]);
    expect(reading.tipMargin).toBeCloseTo(150, 12);
    expect(reading.tipAngle).toBeCloseTo((Math.atan(0.3) * 180) / Math.PI, 12);
    expect(reading.tipPush?.height).toBe(1000);
    expect(reading.tipPush?.force).toBeCloseTo(20 * GRAVITY * 0.15, 9);
    expect(reading.tipPush?.slideForce).toBeCloseTo(10 * GRAVITY, 9);
    expect(reading.tipPush?.first).toBe('tips');
    expect(reading.tipPush?.turnoverHeight).toBeCloseTo(300, 9);
  });

  test('on a slippery floor the same block slides first', () => {
    expect(read([block], { ...plan, limits: { friction: 0.1 } }).tipPush?.first).toBe('slides');
  });

  test('a weight on a boom shifts the centre and picks the direction', () => {
    const crash = body('crash', disc(600, 0, 200), { massKg: 5, massCentre: [600, 0, 1200], z1: 1200 });
    const reading = read([block, crash]);
    expect(reading.centre?.[0]).toBeCloseTo(120, 12);
    expect(reading.centre?.[2]).toBeCloseTo(640, 12);
    expect(reading.tipMargin).toBeCloseTo(80, 12);
    expect(Math.cos(((reading.tipDirection ?? 0) * Math.PI) / 180)).toBeCloseTo(1, 12);
  });

  test('a rack of two T-feet: half the foot', () => {
    const feet = [0, 900].map((x) =>
      body(`foot${x}`, capsule(x, -180, x, 180, 20), { touchesFloor: true, massKg: 1, massCentre: [x, 0, 25] }),
    );
    expect(read(feet).tipMargin).toBeCloseTo(200, 12);
  });
});

describe('what is counted', () => {
  test('stage items are no assembly; parts without mass of their own are not unmeasured', () => {
    const wedge = body('wedge', disc(0, 0, 10), { kind: 'stageItem', assembly: 'wedge', massKg: null });
    const tip = body('tip', disc(900, 0, 10), { touchesFloor: true });
    const all = assembliesOf([block, wedge, tip]);
    expect(all.map(({ id }) => id)).toEqual(['a']);
    expect(all[0].unmeasured).toEqual([]);
    expect(all[0].contacts).toHaveLength(2);
  });

  test('an unknown mass leaves everything unmeasured, and the finding names the piece', () => {
    const stack = body('stack', disc(0, 0, 100), { massKg: null });
    const reading = read([block, stack]);
    expect(reading).toMatchObject({ mass: null, centre: null, tipMargin: null, tipAngle: null, tipPush: null });
    expect(stability(plan, [reading])).toEqual([
      expect.objectContaining({ code: 'mass_unknown', state: 'unmeasured', pieces: ['a', 'stack'], value: null }),
    ]);
  });

  test('nothing on the floor: no margin, and no finding of its own', () => {
    const reading = read([body('cymbal', disc(0, 0, 200), { massKg: 1, massCentre: [0, 0, 900] })]);
    expect(reading.mass).toBe(1);
    expect(reading.tipMargin).toBeNull();
    expect(stability(plan, [reading])).toEqual([]);
  });
});

describe('ST-1 findings', () => {
  const leaning = (x: number) => [
    body('feet', rectangle(0, 0, 200, 200, 0), { touchesFloor: true }),
    body('load', disc(x, 0, 10), { massKg: 10, massCentre: [x, 0, 500] }),
  ];
  test.each([
    ['over its feet', 0, 'stands', 'clear'],
    ['near the edge', 50, 'tips_easily', 'tight'],
    ['right over the edge', 100, 'falls_over', 'blocked'],
    ['beyond its feet', 140, 'falls_over', 'blocked'],
  ])('%s', (_, x, code, state) => {
    const [finding] = stability(plan, [read(leaning(x))]);
    expect(finding).toMatchObject({ code, state, limit: 8, source: "Legroom's own default" });
    expect(finding.value).toBeCloseTo((Math.atan2(100 - x, 500) * 180) / Math.PI, 9);
  });

  test('the limit is the plan’s own where it sets one', () => {
    const strict = { ...plan, limits: { tipAngleDeg: 15 } };
    expect(stability(strict, [read(leaning(0))])[0]).toMatchObject({
      code: 'tips_easily',
      limit: 15,
      source: 'set in this plan',
    });
  });
});

test('law: a kit turned and shifted as a whole keeps masses, margins and angles', () => {
  const { bodies } = layoutSetup(plan, 'straight');
  const angle = 0.7;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const turned = bodies.map(
    (each): Body => ({
      ...each,
      shape: moved(each.shape, { angle, dx: 300, dy: -200 }),
      massCentre: each.massCentre && [
        300 + c * each.massCentre[0] - s * each.massCentre[1],
        -200 + s * each.massCentre[0] + c * each.massCentre[1],
        each.massCentre[2],
      ],
    }),
  );
  const before = assemblyReadings(plan, null, assembliesOf(bodies));
  const after = assemblyReadings(plan, null, assembliesOf(turned));
  expect(before.some(({ tipMargin }) => tipMargin !== null)).toBe(true);
  before.forEach((reading, k) => {
    for (const name of ['mass', 'tipMargin', 'tipAngle'] as const) {
      const value = reading[name];
      if (value === null) expect(after[k][name]).toBeNull();
      else expect(after[k][name]).toBeCloseTo(value, 7);
    }
  });
});

describe('ST-2 feet off the riser', () => {
  /** 1 m square from the origin, 300 high. */
  const deck = (part: Partial<DeckLayout> = {}): DeckLayout => ({
    name: 'Riser',
    modules: [[0, 0, 1000, 0, 1000, 1000, 0, 1000]],
    heightMm: 300,
    ratedKPa: null,
    edgeMarginMm: 0,
    ...part,
  });
  /** Two T-feet of 400 lying across, 600 apart; 20 kg half-way, 500 up. */
  const rack = (x: number, y: number) => [
    ...[0, 600].map((along) =>
      body(`foot${along}`, capsule(x + along, y - 180, x + along, y + 180, 20), { touchesFloor: true }),
    ),
    body('load', disc(x + 300, y, 20), { massKg: 20, massCentre: [x + 300, y, 500] }),
  ];
  const on = (where: DeckLayout | null, bodies: readonly Body[]) =>
    assemblyReadings(plan, where, assembliesOf(bodies))[0];
  const told = (where: DeckLayout | null, bodies: readonly Body[]) =>
    stability(plan, assemblyReadings(plan, where, assembliesOf(bodies)));

  test('all feet on the riser: nothing is lost', () => {
    expect(on(deck(), rack(200, 500))).toEqual(on(null, rack(200, 500)));
    expect(told(deck(), rack(200, 500))).toEqual([expect.objectContaining({ code: 'stands', all: true })]);
  });

  test('one of two feet beside the riser: it stands on the other alone, and falls', () => {
    const [finding] = told(deck(), rack(500, 500));
    expect(finding).toMatchObject({ code: 'feet_off_deck', state: 'blocked', onDeck: 1, feet: 2, pieces: ['a'] });
    expect(on(deck(), rack(500, 500)).tipMargin).toBeCloseTo(-(300 - 20), 9);
    expect(findingSentence(finding, plan, 'straight')).toContain('1 of its 2 feet on the riser, and falls off it');
  });

  test('both feet a little over the edge: the edge is the tipping line', () => {
    const [finding] = told(deck(), rack(200, 100));
    expect(finding).toMatchObject({ code: 'feet_off_deck', state: 'tight', onDeck: 0, feet: 2 });
    expect(on(deck(), rack(200, 100)).tipMargin).toBeCloseTo(100, 9);
  });

  test('off the riser altogether: it holds nothing, and what is left is not called everything', () => {
    expect(on(deck(), rack(2000, 500))).toMatchObject({ tipMargin: null, tipAngle: null, feetOnDeck: { onDeck: 0 } });
    const other = rack(200, 500).map((each) => ({ ...each, id: `${each.id}-b`, assembly: 'b' }));
    const [finding] = told(deck(), [...rack(2000, 500), ...other]);
    expect(finding).toMatchObject({ code: 'stands', all: false, pieces: ['b'] });
    expect(findingSentence(finding, plan, 'straight')).toMatch(/^What is on the riser stands: /);
  });

  test('a riser no higher than the floor around it is no edge', () => {
    expect(told(deck({ heightMm: 0 }), rack(2000, 500))).toEqual([
      expect.objectContaining({ code: 'stands', all: true }),
    ]);
  });

  test('law: what rests lies on the deck and within the contact, and never makes a thing safer', () => {
    const place = fc.integer({ min: -300, max: 1300 });
    const shape = fc.oneof(
      fc.tuple(place, place).map(([x, y]) => disc(x, y, 12)),
      fc.tuple(place, place, place, place).map(([x, y, u, v]) => capsule(x, y, u, v, 20)),
      fc
        .tuple(place, place, fc.double({ min: 0, max: 6, noNaN: true }))
        .map(([x, y, a]) => rectangle(x, y, 300, 90, a)),
    );
    const decks = fc.constantFrom(
      deck(),
      deck({
        modules: [
          [0, 0, 1000, 0, 1000, 500, 0, 500],
          [0, 500, 400, 500, 400, 1000, 0, 1000],
        ],
      }),
    );
    fc.assert(
      fc.property(fc.array(shape, { minLength: 1, maxLength: 4 }), decks, place, place, (shapes, where, x, y) => {
        const bodies = shapes.map((each, k) => body(`c${k}`, each, { touchesFloor: true }));
        for (const one of bodies)
          for (const part of restingOn(where, one)) {
            expect(deckMargin(where.modules, part)).toBeGreaterThan(-1e-6);
            // Its points are the contact's: nothing of them lies outside it.
            for (const [px, py] of supportPoints(part)) expect(gap(disc(px, py, 0), one.shape).gap).toBeLessThan(1e-6);
          }
        const rests = bodies.flatMap((one) => restingOn(where, one));
        const whole = tipMargin(shapes, x, y)!.marginMm;
        if (rests.length > 0) expect(tipMargin(rests, x, y)!.marginMm).toBeLessThan(whole + 1e-6);
      }),
      runs(400),
    );
  });

  test('law: every point of a contact that lies on the deck is held within what rests, but for a bar’s width', () => {
    const place = fc.integer({ min: -300, max: 1300 });
    fc.assert(
      fc.property(
        fc.tuple(place, place, place, place),
        fc.double({ min: 0, max: 1, noNaN: true }),
        ([x, y, u, v], t) => {
          const one = body('bar', capsule(x, y, u, v, 20), { touchesFloor: true });
          const [px, py] = [x + (u - x) * t, y + (v - y) * t];
          if (!pointInDeck(deck().modules, px, py)) return;
          expect(tipMargin(restingOn(deck(), one), px, py)!.marginMm).toBeGreaterThan(-1e-6);
        },
      ),
      runs(400),
    );
  });
});
