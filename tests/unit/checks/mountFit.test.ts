import { describe, expect, test } from 'vitest';
import { mountFit } from '../../../src/checks/mountFit.ts';
import { CATALOGUE } from '../../../src/gear/catalogue.ts';
import { clampsFor, footMm, socketMisfit, takes } from '../../../src/gear/fits.ts';
import { isArm, socketsOf } from '../../../src/gear/kinds.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item, Mount, Plan, Rack } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { item, samplePlan } from '../../fixtures/plans.ts';
import { SAMPLE_PLANS } from '../../fixtures/samplePlans.ts';

/** The rack of the tests' own plan, its bar and its legs of this tube from the catalogue. */
function planWith(tube: string, ...pieces: Item[]): Plan {
  const plan = samplePlan();
  const left = structuredClone(plan.setups.straight.pieces.left) as Rack;
  for (const leg of left.legs) Object.assign(leg, { tube, lengthMm: 609.6 });
  for (const { bars } of left.spans) for (const bar of bars) bar.tube = tube;
  plan.setups.straight.pieces = Object.fromEntries([left, ...pieces].map((piece) => [piece.id, piece]));
  plan.setups.straight.order = ['left', ...pieces.map(({ id }) => id)];
  return plan;
}
const BAR: Mount['carrier'] = { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 };
const leg = (heightMm: number): Mount['carrier'] => ({ on: 'leg', rack: 'left', leg: 'l1', heightMm });
const held = (id: string, gear: string, mount: Mount): Item => ({ ...item(id, id, gear, -700, -500), mount });
const crash = (mount: Mount) => held('crash', 'crash', mount);
const found = (plan: Plan) => mountFit(plan, plan.setups.straight, layoutSetup(plan, 'straight'));
const codes = (plan: Plan) => found(plan).map(({ code }) => code);
const say = (plan: Plan) => found(plan).map((one) => findingSentence(one, plan, 'straight'));
const STEEL = 'upright-24in';
const WIDE = 'upright-24in-wide';

describe('clamps', () => {
  test('MF-1 a clamp for 36 to 40 mm on a 50.8 mm tube is blocked, and one that fits is named', () => {
    const plan = planWith(WIDE, crash({ carrier: BAR, clamp: 'clamp-arm', arm: 'boom-medium' }));
    expect(found(plan)).toEqual([
      expect.objectContaining({
        code: 'clamp_misfits_tube',
        state: 'blocked',
        value: 50.8,
        limit: 40,
        wouldDo: 'clamp-arm-wide',
      }),
    ]);
    expect(say(plan)).toEqual([
      'Clamp for an arm of crash takes tubes of 36 mm to 40 mm, and it is on one of 50.8 mm: take Clamp for an arm, 2 in tube.',
    ]);
    expect(codes(planWith(WIDE, crash({ carrier: BAR, clamp: 'clamp-arm-wide', arm: 'boom-medium' })))).toEqual([]);
    expect(codes(planWith(STEEL, crash({ carrier: BAR, clamp: 'clamp-arm', arm: 'boom-medium' })))).toEqual([]);
  });

  test('MF-1 a memory lock and a joint hold no arm; a thin arm slips through a wide clamp', () => {
    const by = (clamp: string, arm: string) => codes(planWith(STEEL, crash({ carrier: BAR, clamp, arm })));
    expect(by('collar', 'boom-medium')).toEqual(['clamp_holds_no_arm']);
    expect(by('clamp-cross', 'boom-medium')).toEqual(['clamp_holds_no_arm']);
    expect(by('clamp-arm', 'boom-mini')).toEqual(['arm_misfits_clamp']);
    expect(by('clamp-arm-narrow', 'boom-extra-long')).toEqual(['arm_misfits_clamp']);
    expect(by('clamp-arm-narrow', 'boom-mini')).toEqual([]);
  });

  test('MF-1 a link’s clamp is asked too, and a clamp on a stand’s tube', () => {
    const stand: Item = {
      ...item('stand', 'stand', 'hat-stand', -600, -500),
      ties: [{ carrier: BAR, link: 'link', clamp: 'collar', heightMm: 300 }],
    };
    expect(codes(planWith(STEEL, stand))).toEqual(['clamp_holds_no_arm']);
    const on = crash({ carrier: { on: 'piece', piece: 'stand' }, clamp: 'clamp-arm', arm: 'boom-medium' });
    expect(codes(planWith(STEEL, { ...stand, ties: [] }, on))).toEqual(['clamp_misfits_tube']);
  });
});

describe('sockets', () => {
  const tom = (arm: string) =>
    held('tom', 'tom', { carrier: BAR, clamp: 'clamp-arm', arm, platformArm: arm.startsWith('tom') ? 'l-arm' : null });
  const inSocket = (socket: number, arm: string) =>
    crash({ carrier: { on: 'socket', piece: 'tom', socket }, clamp: null, arm });

  test('MF-2 a platform goes into no socket; a boom belongs into the rear one; a thin arm falls through', () => {
    const at = (socket: number, arm: string) =>
      found(planWith(STEEL, tom('tom-holder-double-rear'), inSocket(socket, arm)));
    expect(at(0, 'tom-holder-double').map(({ code, state }) => [code, state])).toEqual([
      ['socket_takes_no_such', 'blocked'],
    ]);
    expect(at(0, 'boom-medium')).toEqual([
      expect.objectContaining({ code: 'socket_for_toms', state: 'tight', freeSocket: 2 }),
    ]);
    expect(at(2, 'boom-medium')).toEqual([]);
    expect(at(0, 'l-arm-long')).toEqual([]);
    expect(at(0, 'boom-mini').map(({ code }) => code)).toEqual(['arm_misfits_socket']);
    const plan = planWith(STEEL, tom('tom-holder-double-rear'), inSocket(0, 'boom-medium'));
    expect(say(plan)).toEqual([
      'crash is in the right socket of Double tom holder with rear socket, which is for a tom: use its rear socket.',
    ]);
  });

  test('every arm of the catalogue that a socket of the catalogue takes is as thick as it says, and no other', () => {
    const arms = CATALOGUE.filter(isArm);
    for (const holder of arms)
      for (const socket of socketsOf(holder))
        for (const arm of arms) {
          const isIn = socketMisfit(socket, arm) === null;
          const [low, high] = socket.takesMm ?? [0, Number.POSITIVE_INFINITY];
          const fits =
            (arm.kind === 'boom' || arm.kind === 'lArm') &&
            arm.tubeMm >= low - 0.1 &&
            arm.tubeMm <= high + 0.1 &&
            (socket.use !== 'tom' || arm.kind === 'lArm');
          expect(isIn, `${arm.id} in ${holder.id}`).toBe(fits);
        }
  });

  test('every clamp that is offered takes the tube and the arm', () => {
    for (const arm of CATALOGUE.filter(isArm))
      for (const tubeMm of [25.4, 38.1, 50.8])
        for (const clamp of clampsFor(CATALOGUE, tubeMm, arm)) {
          expect(takes(clamp.tubeMm, tubeMm)).toBe(true);
          expect(takes(clamp.socketMm, footMm(arm))).toBe(true);
        }
  });
});

describe('how an arm is held', () => {
  test('MF-3 without a clamp 19 in up a 24 in leg: blocked; in its open top: held', () => {
    const up = (heightMm: number) =>
      planWith(STEEL, crash({ carrier: leg(heightMm), clamp: null, arm: 'boom-medium' }));
    expect(found(up(482.6))).toEqual([
      expect.objectContaining({ code: 'arm_below_leg_top', state: 'blocked', limit: 5 }),
    ]);
    expect(found(up(482.6))[0].value).toBeCloseTo(127, 9);
    expect(say(up(482.6))[0]).toMatch(/has no clamp and is 127 mm below the top of its leg: choose a clamp/);
    expect(codes(up(609.6))).toEqual([]);
    expect(codes(planWith(STEEL, crash({ carrier: BAR, clamp: null, arm: 'boom-medium' })))).toEqual([
      'arm_without_clamp',
    ]);
  });

  test('MF-3 one arm in one top, and none that is thicker than the tube is inside', () => {
    const top = { carrier: leg(609.6), clamp: null, arm: 'boom-medium' };
    expect(codes(planWith(STEEL, crash(top), { ...crash(top), id: 'ride' }))).toEqual(['leg_top_taken']);
    const plan = planWith(STEEL, crash({ ...top, arm: 'fat' }));
    const boom = CATALOGUE.find(({ id }) => id === 'boom-medium')!;
    expect(codes({ ...plan, gear: { ...plan.gear, fat: { ...boom, id: 'fat', tubeMm: 36 } as typeof boom } })).toEqual([
      'arm_misfits_leg',
    ]);
  });

  test('MF-4 a clamp alone holds what it reaches, and nothing holds a crash on a bar without clamp and arm', () => {
    const at = (xMm: number, heightMm: number, clamp: string | null) =>
      codes(
        planWith(STEEL, {
          ...crash({ carrier: BAR, clamp, arm: null }),
          place: { xMm, yMm: -500, headingDeg: 0, heightMm },
        }),
      );
    // On the bar at x = -800, y = -500, 700 mm up.
    expect(at(-800, 745, 'clamp-arm')).toEqual([]);
    expect(at(-800, 751, 'clamp-arm')).toEqual(['clamp_without_arm']);
    expect(at(-500, 900, 'clamp-arm')).toEqual(['clamp_without_arm']);
    expect(at(-800, 700, null)).toEqual(['nothing_between']);
  });
});

test('every mount of the samples fits', () => {
  for (const { plan } of SAMPLE_PLANS)
    for (const id of plan.order) expect(mountFit(plan, plan.setups[id], layoutSetup(plan, id))).toEqual([]);
});
