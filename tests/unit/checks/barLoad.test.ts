import { describe, expect, test } from 'vitest';
import { barLoad, loadReadings } from '../../../src/checks/barLoad.ts';
import { GRAVITY } from '../../../src/checks/statics.ts';
import { tubeSection } from '../../../src/checks/tubeSection.ts';
import { gearOf, tubeMassKg } from '../../../src/gear/catalogue.ts';
import type { GearOf } from '../../../src/gear/schema.ts';
import { pointAlong } from '../../../src/geometry/arcsLine.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { frameModel } from '../../fixtures/frameModel.ts';
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

/** The left rack's bar bent to a radius; its first leg stays, and its length. */
function bent(plan: Plan, radiusMm: number, side: 'left' | 'right'): Plan {
  const { left } = plan.setups.straight.pieces;
  if (left.kind === 'rack') left.spans[0].bars[0].bend = { radiusMm, straightEndsMm: 0, side };
  return plan;
}

/** A tom beside a bar wherever that is, `out` to the left of it. */
function tomBeside(plan: Plan, id: string, atMm: number, out: number): Plan {
  const { x, y, headingRad } = layoutSetup(plan, 'straight').racks.left.bars[0].pointAt(atMm);
  const setup = plan.setups.straight;
  const tom = tomAt(id, x - out * Math.sin(headingRad), atMm);
  tom.place.yMm = y + out * Math.cos(headingRad);
  setup.pieces[id] = tom;
  setup.order.push(id);
  return plan;
}

describe('joints', () => {
  const C = (3 * GRAVITY * 300) / 1000;
  const moments = (plan: Plan) => read(plan).bars[0].joints.map(({ moment }) => moment!);

  test('a straight bar shares a couple between its joints as a shaft does: by how far away each is', () => {
    const [first, second] = moments(planWith(tomAt('a', -500, 275)));
    expect(first).toBeCloseTo(C * 0.75, 9);
    expect(second).toBeCloseTo(C * 0.25, 9);
  });

  test('a bow turns its bar in the joints without any arm, and sags more than a straight bar of the same length', () => {
    const hung = (plan: Plan) => read(tomBeside(plan, 'a', 500, 0)).bars[0];
    const straight = hung(planWith());
    const curved = hung(bent(planWith(), 500, 'right'));
    expect(straight.joints[0].moment).toBeCloseTo(0, 9);
    for (const { moment } of curved.joints) expect(moment!).toBeGreaterThan(1);
    expect(curved.sag!).toBeGreaterThan(1.5 * straight.sag!);
  });

  test('arms towards the inside of a bow take back what the bow turns', () => {
    const most = (out: number) => Math.max(...moments(tomBeside(bent(planWith(), 500, 'right'), 'a', 500, out)));
    expect(Math.min(most(-150), most(150))).toBeLessThan(0.7 * most(0));
    expect(Math.max(most(-150), most(150))).toBeGreaterThan(1.3 * most(0));
  });

  test('a bar as the frame model has it, arms and all', () => {
    const plan = tomBeside(tomBeside(bent(planWith(), 700, 'left'), 'a', 300, 250), 'b', 800, -120);
    const [bar] = read(plan).bars;
    const { frame } = layoutSetup(plan, 'straight').racks.left;
    const [{ line, s0, s1 }] = frame.bars;
    const loads = [
      ['a', 300],
      ['b', 800],
    ] as const;
    const fine = frameModel({
      line,
      bending: EI,
      torsion: EI / 1.3,
      uniform: ownN / 1000,
      supports: [
        { at: s0, holds: 'grip' },
        { at: s1!, holds: 'grip' },
      ],
      loads: loads.map(([id, at]) => {
        const { xMm, yMm } = plan.setups.straight.pieces[id].place;
        const clamp = pointAlong(line, at);
        const force = 3 * GRAVITY;
        return { at, force, couple: [-force * (yMm - clamp.y), force * (xMm - clamp.x)] as const };
      }),
    });
    expect(bar.sag! / -Math.min(...fine.sag)).toBeCloseTo(1, 3);
    bar.joints.forEach(({ moment }, k) => {
      expect((1000 * moment!) / Math.abs(fine.twists[k])).toBeCloseTo(1, 3);
    });
  });

  test('grips: both hold; one slips and the other takes the rest; neither holds', () => {
    const plan = planWith(tomAt('a', -500, 275));
    const held = (grip: number | undefined) => {
      plan.limits = grip === undefined ? {} : { clampMomentNm: grip };
      return read(structuredClone(plan)).bars[0].held;
    };
    // It asks 3/4 of C of the nearer joint; both together can hold twice their grip.
    expect([undefined, 0.8 * C, 0.6 * C, 0.4 * C].map(held)).toEqual(['both', 'both', 'one', 'neither']);
  });
});

describe('BL-2 what the joints hold', () => {
  const heavy = (...toms: [number, number][]) => {
    const plan = planWith(...toms.map(([x, at], k) => tomAt(`t${k}`, x, at)));
    plan.gear.tom = { ...plan.gear.tom, massKg: 8 };
    return plan;
  };
  const joints = (plan: Plan) =>
    findings(plan)
      .filter(({ code }) => !code.startsWith('clamp'))
      .map(({ code, state }) => [code, state]);

  test('93 N m with nobody stating a grip is unknown, not clear', () => {
    const plan = heavy([-500, 300], [-500, 450], [-500, 600], [-500, 750]);
    expect(read(plan).bars[0].twist).toBeCloseTo((4 * 8 * GRAVITY * 300) / 1000, 6);
    expect(joints(plan)).toEqual([['grip_unknown', 'unmeasured']]);
    const [finding] = findings(plan);
    expect(findingSentence(finding, plan, 'straight')).toMatch(
      /^A bar of .* turns its joint at leg 2 with .* nobody has stated/,
    );
  });

  test('stated: enough is clear, one that slips is tight, too little is blocked; a clamp entry says it before the plan', () => {
    const plan = heavy([-500, 300], [-500, 350]);
    const told = (limits: Plan['limits'], gripNm?: number) => {
      const now = structuredClone({ ...plan, limits });
      if (gripNm !== undefined) now.gear['clamp-cross'] = { ...(gearOf({}, 'clamp-cross') as GearOf<'clamp'>), gripNm };
      return joints(now);
    };
    const twist = (2 * 8 * GRAVITY * 300) / 1000;
    expect(told({ clampMomentNm: 1.1 * twist })).toEqual([['joint_holds', 'clear']]);
    expect(told({ clampMomentNm: 0.6 * twist })).toEqual([['joint_slips', 'tight']]);
    expect(told({ clampMomentNm: 0.4 * twist })).toEqual([['bar_turns', 'blocked']]);
    expect(told({ clampMomentNm: 0.4 * twist }, 2 * twist)).toEqual([]);
    expect(told({ clampMomentNm: 2 * twist }, 0.4 * twist)).toEqual([['bar_turns', 'blocked']]);
  });

  test("up to what a plain clamp holds, nobody's statement is needed", () => {
    expect(joints(planWith(tomAt('a', -500, 300), tomAt('b', -500, 350)))).toEqual([['joint_holds', 'clear']]);
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
