import { describe, expect, test } from 'vitest';
import { type AssemblyReading, assembliesOf, assemblyReadings, stability } from '../../../src/checks/stability.ts';
import { GRAVITY } from '../../../src/checks/statics.ts';
import { capsule, disc, moved, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import type { Body } from '../../../src/layout/body.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { samplePlan } from '../../fixtures/plans.ts';

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
const read = (bodies: readonly Body[], p = plan): AssemblyReading => assemblyReadings(p, assembliesOf(bodies))[0];

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
  const before = assemblyReadings(plan, assembliesOf(bodies));
  const after = assemblyReadings(plan, assembliesOf(turned));
  expect(before.some(({ tipMargin }) => tipMargin !== null)).toBe(true);
  before.forEach((reading, k) => {
    for (const name of ['mass', 'tipMargin', 'tipAngle'] as const) {
      const value = reading[name];
      if (value === null) expect(after[k][name]).toBeNull();
      else expect(after[k][name]).toBeCloseTo(value, 7);
    }
  });
});
