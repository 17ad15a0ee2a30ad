/** What may touch, what may not, and how heights count, on a floor of two or three pieces. */
import { describe, expect, test } from 'vitest';
import { pairReadings } from '../../../src/checks/clearance.ts';
import { runChecks } from '../../../src/checks/run.ts';
import { gapValue } from '../../../src/geometry/gap.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { planOf, samplePlan } from '../../fixtures/plans.ts';

function piece(id: string, gear: string, xMm: number, yMm: number, more: Partial<Item> = {}, place = {}): Item {
  return { kind: 'item', id, name: id, gear, mount: null, ...more, place: { xMm, yMm, headingDeg: 0, ...place } };
}

function clearances(plan: Plan) {
  const { findings } = runChecks(plan, 's', layoutSetup(plan, 's'));
  return findings.filter((finding) => finding.check === 'clearance');
}

// Radius 203.2 mm each; the default for two cymbals is 25 mm.
const cymbals = (apart: number, rise = 0) =>
  planOf(
    piece('a', 'crash-16', 0, 0, {}, { heightMm: 1000 }),
    piece('b', 'crash-16', 406.4 + apart, 0, {}, { heightMm: 1000 + rise }),
  );

describe('CL-1 states', () => {
  test.each([
    ['apart', 30, 'clear', 'apart'],
    ['at the limit', 25, 'clear', 'apart'],
    ['closer than the limit', 24, 'tight', 'too_close'],
    ['overlapping', -5, 'blocked', 'overlap'],
  ] as const)('%s', (_, apart, state, code) => {
    const [finding] = clearances(cymbals(apart));
    expect([finding.state, finding.code, finding.limit]).toEqual([state, code, 25]);
    expect(finding.value).toBeCloseTo(apart, 9);
    expect(finding.pieces).toEqual(['a', 'b']);
    // The line runs from one edge to the other.
    expect(finding.line[0]).toBeCloseTo(203.2, 9);
    expect(finding.line[2]).toBeCloseTo(203.2 + apart, 9);
  });

  test('CL-7 farther than 60 mm: nothing to say', () => expect(clearances(cymbals(61))).toEqual([]));
  test('CL-7 one finding for each two pieces too close; with none, one for the pair nearest to its limit', () => {
    const third = (apart: number, gap: number) =>
      planOf(
        ...Object.values(cymbals(apart).setups.s.pieces as Record<string, Item>),
        piece('c', 'crash-16', 2 * 406.4 + apart + gap, 0, {}, { heightMm: 1000 }),
      );
    const told = (plan: Plan) => clearances(plan).map(({ code, pieces }) => [code, ...pieces]);
    expect(told(third(24, 20))).toEqual([
      ['too_close', 'a', 'b'],
      ['too_close', 'b', 'c'],
    ]);
    expect(told(third(50, 30))).toEqual([['apart', 'b', 'c']]);
  });
  test('CL-7 of two pieces of many parts, the worst pair speaks', () => {
    const plan = planOf(piece('throne', 'throne-round', 0, 0), piece('pedal', 'pedal-single', 0, 120));
    const setup = plan.setups.s;
    const short = pairReadings(plan, setup, layoutSetup(plan, 's').bodies).map(({ gap, required }) => gap - required);
    expect(short.filter((each) => each < 0).length).toBeGreaterThan(1);
    const [finding, ...more] = clearances(plan);
    expect(more).toEqual([]);
    expect(finding.value - finding.limit).toBe(Math.min(...short));
  });
});

describe('CL-2 heights', () => {
  // A level tom, 203.2 mm deep, over a throne whose seat is at 500 mm.
  const over = (air: number) =>
    planOf(
      piece('t', 'tom-12x8', 0, 0, {}, { heightMm: 500 + air + 203.2 }),
      piece('s', 'throne-round', 0, 0, {}, { heightMm: 500 }),
    );
  test('10 mm of air or more: they do not meet', () => expect(clearances(over(10))).toEqual([]));
  test('less: too close, by the air that is left, and not run into each other', () => {
    const [finding] = clearances(over(9));
    expect([finding.state, finding.code, finding.space, finding.upper]).toEqual(['tight', 'too_close', true, 0]);
    expect(finding.value).toBeCloseTo(9, 6);
    expect(finding.limit).toBeCloseTo(10, 6);
  });
  test('none: they touch', () => expect(clearances(over(0))[0].state).toBe('blocked'));
  test('the plan can ask for more', () => {
    const [finding] = clearances({ ...over(20), limits: { heightMm: 30 } });
    expect([finding.state, finding.limit]).toEqual(['tight', expect.closeTo(30, 6)]);
  });
});

describe('limits of the plan', () => {
  test('its own limit for a pair of kinds', () => {
    const [finding] = clearances({ ...cymbals(30), limits: { clearanceMm: { 'cymbal+cymbal': 40 } } });
    expect([finding.state, finding.limit, finding.source]).toEqual(['tight', 40, 'set in this plan']);
  });
  test('beyond what is listed otherwise', () =>
    expect(clearances({ ...cymbals(90), limits: { clearanceMm: { 'cymbal+cymbal': 100 } } })[0].state).toBe('tight'));
  test('CL-3 null leaves the pair unchecked', () =>
    expect(clearances({ ...cymbals(-5), limits: { clearanceMm: { 'cymbal+cymbal': null } } })).toEqual([]));
});

describe('CL-4 what touches by design', () => {
  const stand = piece('stand', 'stand-snare', 0, 0);
  const on = (id: string) => ({ mount: { carrier: { on: 'piece' as const, piece: id }, clamp: null, arm: null } });

  test('a snare on its stand', () =>
    expect(clearances(planOf(stand, piece('snare', 'snare-14x5.5', 0, 0, on('stand'))))).toEqual([]));
  test('a snare in a stand that is not its own', () =>
    expect(clearances(planOf(stand, piece('snare', 'snare-14x5.5', 0, 0)))[0].state).toBe('blocked'));

  // The drum's back edge is at y = 203.2; the pedal's board is 300 mm long, its tower at the front.
  const bass = piece('bass', 'bass-22x16', 0, 0);
  test('CL-6 a pedal at the batter hoop', () =>
    expect(clearances(planOf(bass, piece('pedal', 'pedal-single', 0, 380)))).toEqual([]));
  test('CL-6 a pedal deep in the drum is none of that', () =>
    expect(clearances(planOf(bass, piece('pedal', 'pedal-single', 0, 150)))[0].state).toBe('blocked'));
  test('CL-6 the second pedal of a double one is clamped to nothing', () => {
    const second = { second: { xMm: 200, yMm: -200, headingDeg: 0 } };
    const [finding] = clearances(planOf(bass, piece('pedal', 'pedal-double', 0, 380, second)));
    expect(finding.state).toBe('blocked');
    expect(finding.bodies.some((body) => body.startsWith('pedal/second-'))).toBe(true);
  });
  test('a tom that hangs on the bass drum may not sink into it', () => {
    const tom = (heightMm: number) => piece('tom', 'tom-12x8', 0, 0, on('bass'), { heightMm });
    // The drum is 582.8 mm tall, the tom 203.2 mm deep.
    expect(clearances(planOf(bass, tom(850)))).toEqual([]);
    expect(clearances(planOf(bass, tom(700)))[0].state).toBe('blocked');
  });
});

test('CL-5 an arm may touch the rack that its piece hangs on, and no other', () => {
  const plan = samplePlan();
  const { left, crash } = plan.setups.straight.pieces;
  if (crash.kind !== 'item' || !crash.mount) throw new Error('The crash hangs on the left rack.');
  // Without a clamp the arm's post stands on the bar itself.
  const held: Item = { ...crash, mount: { ...crash.mount, clamp: null } };
  const setup = { id: 's', name: 'S', riser: null, pieces: { left, crash: held }, order: ['left', 'crash'] };
  const own: Plan = { ...plan, setups: { s: setup }, order: ['s'] };
  const { bodies } = layoutSetup(own, 's');
  const shape = (id: string) => bodies.find((body) => body.id === id)!.shape;
  expect(gapValue(shape('crash/post'), shape('left/b1'))).toBeLessThan(0);
  expect(clearances(own)).toEqual([]);
  // The same rack under another id is not what it hangs on.
  const twin = { ...left, id: 'twin' };
  const two = { ...setup, pieces: { left, crash: held, twin }, order: ['left', 'crash', 'twin'] };
  expect(clearances({ ...own, setups: { s: two } })).toContainEqual(
    expect.objectContaining({ code: 'overlap', pieces: ['twin', 'crash'] }),
  );
});

describe('CL-8 microphones', () => {
  const bassDrum = piece('bd', 'bass-22x18', 0, 0);
  const blocked = (plan: Plan) => clearances(plan).filter(({ state }) => state === 'blocked');

  test('one in the drum that it takes is no clash; in any other it is, and so is a DI', () => {
    const inside = (more: Partial<Item>, gear = 'microphone-kick') => planOf(bassDrum, piece('m', gear, 0, -150, more));
    expect(blocked(inside({}))).toMatchObject([{ pieces: ['bd', 'm'] }]);
    expect(blocked(inside({ takes: 'bd' }))).toEqual([]);
    expect(blocked(inside({ takes: 'gone' }))).toHaveLength(1);
    expect(blocked(inside({ takes: 'bd' }, 'di-box'))).toHaveLength(1);
    // What else it stands in still counts.
    const both = planOf(
      bassDrum,
      piece('m', 'microphone-kick', 0, -150, { takes: 'bd' }),
      piece('n', 'throne-round', 0, -150),
    );
    expect(blocked(both).map(({ pieces }) => pieces)).toContainEqual(['m', 'n']);
  });

  test('a tall stand is its base and its tube: a cymbal passes over the base', () => {
    const at = (xMm: number) =>
      planOf(piece('m', 'microphone-overhead', 0, 0), piece('c', 'crash-16', xMm, 0, {}, { heightMm: 1000 }));
    expect(blocked(at(300))).toEqual([]);
    expect(blocked(at(200))).toHaveLength(1);
  });

  test('one clipped to a drum stands on nothing, and the deck carries nothing of it by a foot', () => {
    const plan = planOf(
      piece('t', 'tom-12x8', 0, 0, {}, { heightMm: 700 }),
      piece('m', 'microphone-clip', 0, -150, { takes: 't' }),
    );
    const own = layoutSetup(plan, 's').bodies.filter((body) => body.piece === 'm');
    expect(own.map(({ touchesFloor, z0, z1 }) => [touchesFloor, z0, z1])).toEqual([[false, 650, 740]]);
    const { findings } = runChecks(plan, 's', layoutSetup(plan, 's'));
    expect(findings.filter(({ pieces, code }) => code === 'nothing_holds_it' && pieces[0] === 'm')).toEqual([]);
  });
});
