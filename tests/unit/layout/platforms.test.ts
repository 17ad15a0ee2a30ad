/** Platforms with an arm of their own: where it stands, how high the head is, and what that takes of air and weight. */
import { describe, expect, test } from 'vitest';
import { loadReadings } from '../../../src/checks/barLoad.ts';
import { mountReadings } from '../../../src/checks/mountReach.ts';
import { partUses } from '../../../src/checks/parts.ts';
import { runChecks } from '../../../src/checks/run.ts';
import { type Layout, layoutSetup } from '../../../src/layout/layout.ts';
import { headHeight } from '../../../src/layout/platformHead.ts';
import type { MountPose } from '../../../src/layout/reachMounts.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { item, rack, samplePlan } from '../../fixtures/plans.ts';

/** One straight bar along x at 700 mm, legs at 0 and 900; platform-2 has a post of 0 to 200 mm and sockets 80 mm to either side. */
function onePlan(...items: Item[]): Plan {
  const plan = samplePlan();
  const pieces = [rack('rack', 'Rack', 0, 0, 0), ...items];
  const one = { id: 'one', name: 'One', riser: null, order: pieces.map(({ id }) => id) };
  const setup = { ...one, pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])) };
  return { ...plan, setups: { one: setup }, order: ['one'] };
}
const layoutOf = (plan: Plan): Layout => layoutSetup(plan, 'one');
const poseOf = (plan: Plan, piece: string): MountPose => {
  const pose = layoutOf(plan).mounts.find((each) => each.piece === piece);
  if (!pose) throw new Error(`no pose of ${piece}`);
  return pose;
};
/** Shell 152.5 mm in radius, its middle 101.5 mm below its top. L-arm: post 0 to 300, arm 80 to 260, ball 0 to 60 degrees. */
const tomAt = (id: string, xMm: number, yMm: number, heightMm: number, mount: Item['mount']): Item => ({
  ...item(id, id, 'tom', xMm, yMm),
  place: { xMm, yMm, headingDeg: 0, heightMm },
  mount,
});
/** Clamp in the middle of the bar, at (400, 0), without reach of its own. */
const platformMount = (platformArm: string | null): NonNullable<Item['mount']> => ({
  carrier: { on: 'bar', rack: 'rack', bar: 'b1', atMm: 450 },
  clamp: null,
  arm: 'platform-2',
  platformArm,
});
const inSocket = (piece: string, socket: number, arm = 'l-arm'): NonNullable<Item['mount']> => ({
  carrier: { on: 'socket', piece, socket },
  clamp: null,
  arm,
});

describe('the arm in the platform’s own socket', () => {
  // 252.5 mm from the left socket, 7.5 less than the arm's longest; 92.5 mm from the right one, 12.5 more than its shortest.
  const tom = tomAt('tom1', 725, 0, 950, platformMount('l-arm'));

  test('stands in the tom socket that suits it best, and its reach counts from there', () => {
    const pose = poseOf(onePlan(tom), 'tom1');
    expect(pose.arm.id).toBe('l-arm');
    expect(pose.head).toMatchObject({ socket: 1, foot: [400, 0, 700] });
    // From (480, 0) to the shell's nearest point at 725 - 152.5.
    expect(pose.horizontalMm).toBeCloseTo(92.5, 9);
    expect(pose.reach.reached).toBe(true);
    const { post, elbow, target, head } = pose;
    expect(post[0]).toBeCloseTo(480, 9);
    expect(post[2]).toBeCloseTo(head?.top[2] ?? Number.NaN, 9);
    // The posts add up to the whole rise: an L-arm is level.
    expect(elbow[2]).toBeCloseTo(target[2], 9);
    expect(target[2]).toBeCloseTo(848.5, 9);
  });

  test('never in one that another mount names', () => {
    const other = tomAt('tom2', 720, 300, 950, inSocket('tom1', 1));
    const pose = poseOf(onePlan(tom, other), 'tom1');
    expect(pose.head?.socket).toBe(0);
    expect(pose.horizontalMm).toBeCloseTo(252.5, 9);
  });

  test('the head stands where both arms reach', () => {
    const own = tomAt('tom1', 20, 0, 950, platformMount('l-arm'));
    const high = tomAt('tom2', 720, 0, 700 + 400 + 101.5, inSocket('tom1', 1));
    const plan = onePlan(own, high);
    const [first, second] = [poseOf(plan, 'tom1'), poseOf(plan, 'tom2')];
    // 400 mm up with a post of at most 300: the head is at least 100 mm up; the first one's piece is 148.5 up: at most that.
    const head = (first.head?.top[2] ?? 0) - 700;
    expect(head).toBeCloseTo((100 + 148.5) / 2, 9);
    expect(first.reach.reached && second.reach.reached).toBe(true);
    expect(second.post[2]).toBeCloseTo(700 + head, 9);
    // Without the second the first has the whole range to itself.
    expect((poseOf(onePlan(own), 'tom1').head?.top[2] ?? 0) - 700).toBeCloseTo(148.5 / 2, 9);
  });

  test('a neighbour that moves takes the head along, in a layout that keeps what did not move', () => {
    const own = tomAt('tom1', 20, 0, 950, platformMount('l-arm'));
    const high = tomAt('tom2', 720, 0, 1201.5, inSocket('tom1', 1));
    const plan = onePlan(own, high);
    layoutOf(plan);
    const lower = runCommand(plan, {
      type: 'setPiece',
      setup: 'one',
      piece: 'tom2',
      set: { mount: null },
    });
    if (!lower.ok) throw new Error('The second drum can be let go.');
    expect((poseOf(lower.plan, 'tom1').head?.top[2] ?? 0) - 700).toBeCloseTo(148.5 / 2, 9);
  });

  test('on an upright the clamp swings, and the socket with it', () => {
    const mount = {
      ...platformMount('l-arm'),
      carrier: { on: 'leg', rack: 'rack', leg: 'l1', heightMm: 300 } as const,
    };
    const tom3 = tomAt('tom1', 300, 200, 550, { ...mount, clamp: 'clamp-own' });
    const pose = poseOf(onePlan(tom3), 'tom1');
    const { foot, sockets, socket } = pose.head ?? { foot: [0, 0], sockets: [], socket: 0 };
    expect(Math.hypot(foot[0], foot[1])).toBeCloseTo(45, 9);
    expect(sockets[socket].slice(0, 2)).toEqual(pose.post.slice(0, 2).map((value) => expect.closeTo(value, 9)));
    expect(Math.hypot(pose.target[0] - pose.post[0], pose.target[1] - pose.post[1])).toBeCloseTo(pose.horizontalMm, 6);
  });
});

test('heights: most arms first, then the longest stretch, within what the own piece allows', () => {
  expect(headHeight([[0, 100]], [])).toBe(50);
  expect(headHeight([[0, 100]], [[[80, 200]]])).toBe(90);
  expect(headHeight([[0, 100]], [[[150, 200]]])).toBe(50);
  expect(
    headHeight(
      [
        [0, 10],
        [50, 90],
      ],
      [[[5, 60]], [[55, 70]]],
    ),
  ).toBe(57.5);
  expect(headHeight([[30, 30]], [[[0, 40]]])).toBe(30);
});

describe('what it is made of', () => {
  const tom = tomAt('tom1', 20, 0, 950, platformMount('l-arm'));
  const plan = onePlan(tom);

  test('bodies: the platform’s post and a capsule to each socket, and the arm from its socket', () => {
    const bodies = layoutOf(plan).bodies.filter(({ kind }) => kind === 'arm');
    expect(bodies.map(({ part }) => part)).toEqual(['arm', 'post', 'platform-post', 'platform-1', 'platform-2']);
    const head = 700 + 148.5 / 2;
    const post = bodies[2];
    expect([post.z0, post.z1]).toEqual([700, expect.closeTo(head, 9)]);
    expect(bodies[3].shape.core).toMatchObject({
      x0: 400,
      y0: 0,
      x1: expect.closeTo(320, 9),
      y1: expect.closeTo(0, 9),
    });
    expect([bodies[3].z0, bodies[3].z1]).toEqual([expect.closeTo(head - 13, 9), expect.closeTo(head + 13, 9)]);
  });

  test('mass, moment and parts count both the platform and its arm', () => {
    // Platform 1.4 kg half-way up its post, L-arm 0.95 kg half-way to the shell, the drum 3 kg.
    const own = layoutOf(plan).bodies.find(({ part, piece }) => piece === 'tom1' && part === 'arm');
    expect(own?.massKg).toBeCloseTo(2.35, 9);
    expect(own?.massCentre?.[0]).toBeCloseTo((1.4 * 400 + (0.95 * (320 + 172.5)) / 2) / 2.35, 9);
    const { clamps } = loadReadings(plan, plan.setups.one, layoutOf(plan));
    const armX = (320 + 172.5) / 2;
    const centre = (1.4 * 400 + 0.95 * armX + 3 * 20) / 5.35;
    expect(clamps[0].mass).toBeCloseTo(5.35, 9);
    expect(clamps[0].moment).toBeCloseTo((5.35 * 9.80665 * (400 - centre)) / 1000, 6);
    const arms = partUses(plan, 'one').filter(({ use }) => use === 'arm');
    expect(arms.map(({ id, gear }) => [id, gear])).toEqual([
      ['tom1/arm', 'platform-2'],
      ['tom1/platform-arm', 'l-arm'],
    ]);
  });

  test('readings: the arm and its platform; none says that an arm is needed', () => {
    const checked = runChecks(plan, 'one', layoutOf(plan));
    expect(checked.rig.mounts[0]).toMatchObject({
      arm: 'l-arm',
      reached: true,
      platform: { gear: 'platform-2', socket: 0, post: expect.closeTo(148.5 / 2, 9) },
    });
    expect(checked.findings.filter(({ check }) => check === 'mountReach').map(({ code }) => code)).toEqual([
      'arm_reaches',
    ]);
  });
});

test('a bare platform is told which arm would do, and it then does', () => {
  for (const [x, y, height] of [
    [120, 0, 950],
    [400, -420, 900],
    [790, 120, 1050],
    [20, 60, 990],
  ]) {
    const bare = onePlan(tomAt('tom1', x, y, height, platformMount(null)));
    const [reading] = mountReadings(bare, layoutOf(bare).mounts);
    expect(reading.wouldDo).toMatch(/^l-arm/);
    const with_ = onePlan(tomAt('tom1', x, y, height, platformMount(reading.wouldDo)));
    expect(mountReadings(with_, layoutOf(with_).mounts)[0].reached).toBe(true);
  }
});

test('an arm on a platform that misses: the one named does', () => {
  const far = (arm: string) => onePlan(tomAt('tom1', -130, 0, 950, platformMount(arm)));
  const plan = far('l-arm-short');
  const [reading] = mountReadings(plan, layoutOf(plan).mounts);
  // Shell at 22.5, socket at 320, the arm at most 180 mm.
  expect(reading).toMatchObject({ reached: false, left: expect.closeTo(-117.5, 9) });
  const better = far(reading.wouldDo ?? '');
  expect(mountReadings(better, layoutOf(better).mounts)[0].reached).toBe(true);
});

test('a mirrored kit has the mirrored platform', () => {
  const own = { ...tomAt('tom1', 100, 260, 950, platformMount('l-arm-long')) };
  own.place = { ...own.place, headingDeg: 25, tiltDeg: 15 };
  const crash: Item = {
    ...item('crash1', 'Crash', 'crash', 700, 200),
    mount: inSocket('tom1', 1, 'boom-1'),
  };
  const plan = onePlan(own, crash);
  const ran = runCommand(plan, { type: 'mirrorSetup', setup: 'one', axisXMm: 0 });
  if (!ran.ok) throw new Error('The setup can be mirrored.');
  const [was, is] = [layoutOf(plan), layoutOf(ran.plan)];
  expect(is.mounts.map(({ head }) => head?.socket)).toEqual([1, undefined]);
  was.mounts.forEach((pose, k) => {
    const other = is.mounts[k];
    for (const point of ['post', 'elbow', 'target'] as const) {
      expect(other[point][0]).toBeCloseTo(-pose[point][0], 5);
      expect(other[point][1]).toBeCloseTo(pose[point][1], 5);
      expect(other[point][2]).toBeCloseTo(pose[point][2], 5);
    }
    expect(other.reach.leftMm).toBeCloseTo(pose.reach.leftMm, 5);
  });
  const told = (p: Plan, layout: Layout) =>
    runChecks(p, 'one', layout).findings.map(({ code, state, value }) => [
      code,
      state,
      value === null ? null : Math.round(value),
    ]);
  expect(told(ran.plan, is)).toEqual(told(plan, was));
});
