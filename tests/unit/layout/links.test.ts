/** A bent link's profile, and what it may pass over. */
import { describe, expect, test } from 'vitest';
import { clearance, pairReadings } from '../../../src/checks/clearance.ts';
import { armPath } from '../../../src/layout/armBodies.ts';
import type { Body } from '../../../src/layout/body.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { item, rack, samplePlan } from '../../fixtures/plans.ts';

/**
 * A stand 400 mm to the right of an upright at the origin, tied to it; a double pedal whose shaft runs along y across the link, at
 * `shaftX`, 54 to 66 mm high. Its two boards end 55 mm before and behind the link's axis.
 */
function planWith(link: string, shaftX: number, ends: [number, number] = [60, 60], awayMm = 400): Plan {
  const plan = samplePlan();
  const stand: Item = {
    ...item('stand', 'Stand', 'hat-stand', awayMm, 0),
    ties: [
      { carrier: { on: 'leg', rack: 'rack', leg: 'l1', heightMm: ends[0] }, link, clamp: null, heightMm: ends[1] },
    ],
  };
  const pedal: Item = {
    ...item('pedal', 'Pedal', 'double-pedal', shaftX, -210),
    second: { xMm: 0, yMm: 420, headingDeg: 0 },
  };
  // The rack runs away from them.
  const pieces = [rack('rack', 'Rack', 0, 0, 180), stand, pedal];
  const one = { id: 'one', name: 'One', riser: null, order: pieces.map(({ id }) => id) };
  const setup = { ...one, pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])) };
  return { ...plan, setups: { one: setup }, order: ['one'] };
}
const linkOf = (plan: Plan): Body[] => layoutSetup(plan, 'one').bodies.filter(({ kind }) => kind === 'link');

/** Which of the link's bodies meet the shaft, and whether the check of clearances says so. */
function meets(plan: Plan): string[] {
  const pairs = pairReadings(plan, plan.setups.one, layoutSetup(plan, 'one').bodies);
  const crossing = pairs.filter(({ a, b, gap }) => gap <= 0 && [a.kind, b.kind].sort().join() === 'link,shaft');
  const blocked = clearance(plan, pairs).some(
    ({ state, bodies }) => state === 'blocked' && bodies.some((id) => id.startsWith('stand/link')),
  );
  expect(blocked).toBe(crossing.length > 0);
  return crossing.map(({ a, b }) => (a.kind === 'link' ? a.part : b.part));
}

describe('the profile', () => {
  test('level ends at their own heights, a riser each, and the middle at its own', () => {
    // link-bent: 50 mm level, 40 mm of riser, 240 mm high in the middle, tube 19.1 mm.
    const bodies = linkOf(planWith('link-bent', 900, [60, 90]));
    const r = 19.1 / 2;
    expect(bodies.map(({ part }) => part)).toEqual([1, 2, 3, 4, 5].map((k) => `link1-${k}`));
    const x = bodies.map(({ shape: { core } }) => (core.kind === 'segment' ? [core.x0, core.x1] : []));
    expect(x.flat()).toEqual([0, 50, 50, 90, 90, 310, 310, 350, 350, 400].map((each) => expect.closeTo(each, 9)));
    const z = bodies.map(({ z0, z1 }) => [z0 + r, z1 - r]);
    const heights = [
      [60, 60],
      [60, 240],
      [240, 240],
      [90, 240],
      [90, 90],
    ];
    expect(z).toEqual(heights.map((pair) => pair.map((each) => expect.closeTo(each, 9))));
    expect(bodies.filter(({ massKg }) => massKg !== 0)).toHaveLength(1);
  });

  test('too short for its ends and risers: both shortened alike, without a middle', () => {
    const { mounts } = layoutSetup(planWith('link-bent', 900, [60, 60], 90), 'one');
    const xs = armPath(mounts[0]).map(([x]) => x);
    expect(xs).toEqual([0, 25, 45, 45, 65, 90].map((each) => expect.closeTo(each, 9)));
  });

  test('straight where it is a straight link, or where its ends are as high as it passes', () => {
    expect(linkOf(planWith('link', 900)).map(({ part }) => part)).toEqual(['link1']);
    expect(linkOf(planWith('link-bent', 900, [240, 250]))).toHaveLength(1);
  });

  test('gear that does not say how far from its ends it rises is typical', () => {
    const plan = planWith('own', 900);
    plan.gear.own = { ...plan.gear['link-1'], id: 'own', passHeightMm: 200 } as Plan['gear'][string];
    expect(linkOf(plan)).toHaveLength(5);
    plan.gear = { ...plan.gear, own: { ...plan.gear.own, endMm: 100, riserMm: 10 } as Plan['gear'][string] };
    const { core } = linkOf(plan)[1].shape;
    expect(core).toMatchObject({ x0: expect.closeTo(100, 9), x1: expect.closeTo(110, 9) });
  });
});

describe('over a drive shaft', () => {
  test('the straight link is blocked, the bent one passes over it', () => {
    expect(meets(planWith('link', 200))).toEqual(['link1']);
    expect(meets(planWith('link-bent', 200))).toEqual([]);
  });

  test('where it is low it is blocked: at its level ends and where a riser crosses the shaft', () => {
    // The shaft is 6 mm and the link 9.55 mm in radius; the riser goes from (50, 60) to (90, 240), 77.5 degrees steep. A shaft at 65.7
    // is 15.7 mm from the level end and 15.7 sin 77.5 = 15.3 mm from the riser's centre line; at 70 that is 19.5 mm.
    expect(meets(planWith('link-bent', 65.7))).toEqual(['link1-2']);
    expect(meets(planWith('link-bent', 70))).toEqual([]);
    expect(meets(planWith('link-bent', 375))).toEqual(['link1-5']);
  });

  test('what is as high as the middle is not passed over', () => {
    const plan = planWith('link-bent', 200);
    const { 'double-pedal': pedal } = plan.gear;
    if (pedal.kind !== 'pedal' || !pedal.shaft) throw new Error('A double pedal.');
    plan.gear = { ...plan.gear, 'double-pedal': { ...pedal, shaft: { ...pedal.shaft, heightMm: 235 } } };
    expect(meets(plan)).toEqual(['link1-3']);
  });
});
