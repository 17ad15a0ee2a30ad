import { describe, expect, test } from 'vitest';
import type { Finding } from '../../../src/checks/finding.ts';
import { mountReach, mountReadings } from '../../../src/checks/mountReach.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { item, samplePlan } from '../../fixtures/plans.ts';

function planWith(...pieces: Item[]): Plan {
  const plan = samplePlan();
  const { left } = plan.setups.straight.pieces;
  plan.setups.straight.pieces = Object.fromEntries([left, ...pieces].map((piece) => [piece.id, piece]));
  plan.setups.straight.order = ['left', ...pieces.map(({ id }) => id)];
  return plan;
}
function check(plan: Plan) {
  const layout = layoutSetup(plan, 'straight');
  const readings = mountReadings(plan, layout.mounts);
  return { readings, findings: mountReach(plan.setups.straight, layout, layout.mounts, readings) };
}
/** On the bar at x = -800, y = -500; boom-1: post 50 to 300, arm 100 to 400, -60 to 80 degrees; the clamp holds it 45 beside. */
const crash = (xMm: number, heightMm: number, arm = 'boom-1'): Item => ({
  ...item('crash', 'Crash', 'crash', xMm, -500),
  place: { xMm, yMm: -500, headingDeg: 0, heightMm },
  mount: { carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 }, clamp: 'clamp-own', arm },
});

describe('findings', () => {
  test('MR-1 within reach: one clear finding with what is left', () => {
    const { findings, readings } = check(planWith(crash(-500, 900)));
    expect(readings[0]).toMatchObject({ piece: 'crash', arm: 'boom-1', reached: true, wouldDo: null });
    expect(findings).toEqual([
      expect.objectContaining({ code: 'arm_reaches', state: 'clear', value: readings[0].left }),
    ]);
    expect(readings[0].left).toBeGreaterThan(0);
  });

  test.each([
    // level with the tallest post the arm's end is 45 + 400 from the bar
    ['3 mm beyond', 448, 'tight'],
    ['20 mm beyond', 465, 'blocked'],
  ])('MR-1 out of reach, %s: %s', (_, away, state) => {
    const plan = planWith(crash(-800 + away, 900));
    const { findings } = check(plan);
    expect(findings).toEqual([expect.objectContaining({ code: 'arm_misses', state })]);
    expect(findings[0].value).toBeCloseTo(445 - away, 9);
    const { arm, wouldDo } = findings[0] as Extract<Finding, { code: 'arm_misses' }>;
    expect(arm).toBe('boom-1');
    // The catalogue has booms that reach this; the one named does.
    const better = check(planWith(crash(-800 + away, 900, wouldDo ?? 'none')));
    expect(better.readings[0].reached).toBe(true);
    expect(findingSentence(findings[0], plan, 'straight')).toMatch(
      /^Boom arm of Crash is .* short of its place: take .*\.$/,
    );
  });

  test('nothing that reaches: the sentence names none', () => {
    const plan = planWith(crash(4000, 900));
    const { findings } = check(plan);
    expect(findings[0]).toMatchObject({ arm: 'boom-1', wouldDo: null });
    expect(findingSentence(findings[0], plan, 'straight')).toContain('move it or its clamp');
  });

  test('MR-4 a piece in mid-air is held by nothing', () => {
    const plan = planWith(item('crash', 'Crash', 'crash', 0, 0));
    const { findings } = check(plan);
    expect(findings).toEqual([
      expect.objectContaining({ code: 'nothing_holds_it', state: 'unmeasured', pieces: ['crash'] }),
    ]);
    expect(findingSentence(findings[0], plan, 'straight')).toBe(
      'Nothing holds Crash: mount it on a rack, a stand or another arm.',
    );
  });

  test('MR-1 a ball joint too flat for the tilt', () => {
    const tom: Item = {
      ...item('tom', 'Tom', 'tom', -400, -500),
      place: { xMm: -400, yMm: -500, headingDeg: 0, heightMm: 950, tiltDeg: 70 },
      mount: { carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 }, clamp: null, arm: 'l-arm-extra-long' },
    };
    const { findings, readings } = check(planWith(tom));
    expect(readings[0].left).toBeGreaterThanOrEqual(0);
    expect(findings[0]).toMatchObject({ code: 'ball_too_flat', state: 'blocked', unit: 'deg' });
    expect(findings[0].value).toBeCloseTo(10, 9);
  });

  test('MR-3 a platform’s bare socket: which arm bridges the way, and that it is not counted', () => {
    const tom: Item = {
      ...item('tom', 'Tom', 'tom', -450, -500),
      place: { xMm: -450, yMm: -500, headingDeg: 0, heightMm: 850 },
      mount: { carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 }, clamp: null, arm: 'platform-2' },
    };
    const plan = planWith(tom);
    const [finding] = check(plan).findings;
    // Shell 350 - 152.5 from the post, socket 80 from it.
    expect(finding).toMatchObject({ code: 'platform_needs_arm', state: 'unmeasured' });
    expect(finding.value).toBeCloseTo(117.5, 9);
    expect((finding as Extract<Finding, { code: 'platform_needs_arm' }>).wouldDo).toMatch(/^l-arm/);
  });

  test('MR-2 two arms in one socket: blocked, with the socket’s own gear named; one each is not', () => {
    const holder: Item = {
      ...item('tom', 'Tom', 'tom', -560, -500),
      place: { xMm: -560, yMm: -500, headingDeg: 0, heightMm: 900 },
      mount: {
        carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 },
        clamp: null,
        arm: 'platform-2',
        platformArm: 'l-arm',
      },
    };
    const other = (id: string, socket: number): Item => ({
      ...crash(-900, 1000),
      id,
      name: id,
      mount: { carrier: { on: 'socket', piece: 'tom', socket }, clamp: null, arm: 'boom-1' },
    });
    const taken = (...pieces: Item[]) => {
      const plan = planWith(...pieces);
      const found = check(plan).findings.filter(({ code }) => code === 'socket_taken');
      return found.map((finding) => findingSentence(finding, plan, 'straight'));
    };
    expect(taken(holder, other('a', 0))).toEqual([]);
    expect(taken(holder, other('a', 0), other('b', 0))).toEqual([
      'a and b stand in one socket of Double platform: take another socket for one of them.',
    ]);
    // Both named by others: the platform's own arm has none left.
    expect(taken(holder, other('a', 0), other('b', 1))).toHaveLength(1);
  });

  test('MR-1 a link too short', () => {
    const stand: Item = {
      ...item('hat-stand', 'Hi-hat stand', 'hat-stand', -200, -100),
      ties: [
        { carrier: { on: 'leg', rack: 'left', leg: 'l1', heightMm: 300 }, link: 'link-1', clamp: null, heightMm: 300 },
      ],
    };
    const [finding] = check(planWith(stand)).findings;
    expect(finding).toMatchObject({ code: 'link_misses', state: 'blocked', pieces: ['hat-stand'], tooLong: false });
    expect(finding.value).toBeCloseTo(-100, 9);
  });

  test('MR-1 an arm that is too long for its place is not short of it', () => {
    const near: Item = {
      ...item('near', 'Near', 'crash', -800, -500),
      place: { xMm: -760, yMm: -500, headingDeg: 0, heightMm: 770 },
      mount: { carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 }, clamp: null, arm: 'boom-1' },
    };
    const plan = planWith(near);
    const [finding] = check(plan).findings.filter(({ code, pieces }) => code === 'arm_misses' && pieces[0] === 'near');
    expect(finding).toMatchObject({ tooLong: true });
    expect(findingSentence(finding, plan, 'straight')).toMatch(/^Boom arm of Near is .* too long for its place: /);
  });
});
