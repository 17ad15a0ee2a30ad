import { describe, expect, test } from 'vitest';
import { barLoad, loadReadings } from '../../../src/checks/barLoad.ts';
import { tubeSection } from '../../../src/checks/beam.ts';
import { GRAVITY } from '../../../src/checks/statics.ts';
import { tubeMassKg } from '../../../src/gear/catalogue.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { item, samplePlan } from '../../fixtures/plans.ts';

/** The fixture's left rack alone: a bar of 1000 with legs at 50 and 950, along x = -800 from y = -50 down to -1050. */
function planWith(...pieces: Item[]): Plan {
  const plan = samplePlan();
  const { left } = plan.setups.straight.pieces;
  plan.setups.straight.pieces = Object.fromEntries([left, ...pieces].map((piece) => [piece.id, piece]));
  plan.setups.straight.order = ['left', ...pieces.map(({ id }) => id)];
  return plan;
}
const read = (plan: Plan) => loadReadings(plan, plan.setups.straight, layoutSetup(plan, 'straight'));
const findings = (plan: Plan) => barLoad(plan, layoutSetup(plan, 'straight'), read(plan));

/** A tom of 3 kg without arm or clamp: all of its weight is its own. */
const tomAt = (id: string, xMm: number, atMm: number): Item => ({
  ...item(id, 'Tom', 'tom', xMm, -50 - atMm),
  mount: { carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm }, clamp: null, arm: null },
});

const EI = 210_000 * tubeSection(38.1, 2).inertiaMm4;
const ownN = tubeMassKg(38.1, 2, 1000, 'steel') * GRAVITY;

describe('bars', () => {
  test('a bare bar: its own mass between legs 900 apart with 50 beyond each, by the handbook', () => {
    const [bar] = read(planWith()).bars;
    const w = ownN / 1000;
    // Uniform span less the end moments of both overhangs: 5wL4/384EI - w c2/2 L2/8EI.
    const sag = (5 * w * 900 ** 4) / (384 * EI) - ((w * 50 ** 2) / 2) * (900 ** 2 / (8 * EI));
    expect(bar).toMatchObject({ piece: 'left', bar: 'b1', load: 0 });
    expect(bar.sag).toBeCloseTo(sag, 9);
    expect(bar.sagAt).toBeCloseTo(500, 6);
    expect(bar.twist).toBeCloseTo(0, 9);
  });

  test('3 kg in the middle adds PL3/48EI and PL/4W', () => {
    const bare = read(planWith()).bars[0];
    const [bar] = read(planWith(tomAt('t', -800, 500))).bars;
    const P = 3 * GRAVITY;
    expect(bar.load).toBeCloseTo(3, 12);
    expect((bar.sag ?? 0) - (bare.sag ?? 0)).toBeCloseTo((P * 900 ** 3) / (48 * EI), 9);
    expect((bar.stress ?? 0) - (bare.stress ?? 0)).toBeCloseTo((P * 900) / 4 / tubeSection(38.1, 2).modulusMm3, 9);
  });

  test('toms on both sides twist against each other; on one side together', () => {
    const twist = (...pieces: Item[]) => read(planWith(...pieces)).bars[0].twist;
    const one = (3 * GRAVITY * 300) / 1000;
    expect(twist(tomAt('a', -500, 300))).toBeCloseTo(one, 9);
    expect(twist(tomAt('a', -500, 300), tomAt('b', -1100, 700))).toBeCloseTo(0, 9);
    expect(twist(tomAt('a', -500, 300), tomAt('b', -500, 700))).toBeCloseTo(2 * one, 9);
  });

  test('an unweighed piece leaves its bar and clamp unmeasured', () => {
    const plan = planWith(tomAt('t', -800, 500));
    plan.gear.tom = { ...plan.gear.tom, massKg: null };
    const { bars, clamps } = read(plan);
    expect(bars[0]).toMatchObject({ load: null, sag: null, stress: null, twist: null });
    expect(clamps[0]).toMatchObject({ mass: null, moment: null });
    expect(barLoad(plan, layoutSetup(plan, 'straight'), { bars, clamps })).toEqual([]);
  });
});

describe('clamps', () => {
  test('weight times distance in plan; what hangs in a socket hangs on the clamp too', () => {
    const first: Item = {
      ...tomAt('t', -500, 400),
      mount: { carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 400 }, clamp: null, arm: 'boom-1' },
    };
    const second: Item = {
      ...item('u', 'Crash', 'crash', -450, -450),
      mount: { carrier: { on: 'socket', piece: 't', socket: 0 }, clamp: null, arm: null },
    };
    const { clamps, bars } = read(planWith(first, second));
    expect(clamps.map(({ piece }) => piece)).toEqual(['t']);
    // Tom 3, its boom 0.9, the crash 1.1.
    expect(clamps[0].mass).toBeCloseTo(5, 12);
    expect(bars[0].load).toBeCloseTo(5, 12);
    // Tom's centre is 300 off the bar, the crash's 350; the boom is half-way from its post to the tom's shell.
    const pose = layoutSetup(planWith(first, second), 'straight').mounts[0];
    const boom = (pose.post[0] + pose.target[0]) / 2 + 800;
    expect(clamps[0].moment).toBeCloseTo((GRAVITY * (3 * 300 + 1.1 * 350 + 0.9 * boom)) / 1000, 6);
  });

  test('a legless stand hangs on its link; one that reaches the deck does not', () => {
    const stand: Item = {
      ...item('hat-stand', 'Stand', 'hat-stand', -500, -450),
      ties: [
        { carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 400 }, link: 'link-1', clamp: null, heightMm: 700 },
      ],
    };
    const plan = planWith(stand);
    expect(read(plan).clamps[0].mass).toBeCloseTo(4.6, 12);
    const legless = plan.gear['hat-stand'];
    if (legless.kind === 'stand')
      plan.gear['hat-stand'] = { ...legless, base: { form: 'foot', radiusMm: 60, legDiameterMm: 20 } };
    expect(read(structuredClone(plan)).clamps).toEqual([]);
  });
});

describe('BL-1 findings', () => {
  test('nothing too much: the clamp that is turned hardest', () => {
    const told = findings(planWith(tomAt('a', -600, 300), tomAt('b', -500, 700)));
    expect(told).toEqual([expect.objectContaining({ code: 'clamp_holds', state: 'clear', pieces: ['b'], limit: 25 })]);
  });

  test('limits of the plan: clamp, sag and stress each say so', () => {
    const plan = planWith(tomAt('b', -500, 500));
    plan.limits = { clampMomentNm: 5, sagMm: 0.05, stressPart: 0.01 };
    const told = findings(plan).map(({ code, state, source }) => [code, state, source]);
    expect(told).toEqual([
      ['bar_overstressed', 'tight', 'set in this plan'],
      ['bar_sags', 'tight', 'set in this plan'],
      ['clamp_turns', 'tight', 'set in this plan'],
    ]);
  });
});
