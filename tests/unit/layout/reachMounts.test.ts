import { describe, expect, test } from 'vitest';
import type { Gear } from '../../../src/gear/schema.ts';
import { holdPoint } from '../../../src/layout/holdPoint.ts';
import { type Layout, layoutSetup } from '../../../src/layout/layout.ts';
import type { MountPose } from '../../../src/layout/reachMounts.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { item, samplePlan } from '../../fixtures/plans.ts';

/** The fixture's left rack: legs at (-800, -100) and (-800, -1000), bar b1 at 700, 1000 long with 50 beyond each leg. */
function planWith(...pieces: Item[]): Plan {
  const plan = samplePlan();
  const { left, front } = plan.setups.straight.pieces;
  plan.setups.straight.pieces = Object.fromEntries([left, front, ...pieces].map((piece) => [piece.id, piece]));
  plan.setups.straight.order = ['left', 'front', ...pieces.map(({ id }) => id)];
  return plan;
}
const layoutOf = (...pieces: Item[]): Layout => layoutSetup(planWith(...pieces), 'straight');
const poseOf = (layout: Layout, piece: string): MountPose => {
  const pose = layout.mounts.find((each) => each.piece === piece);
  if (!pose) throw new Error(`no pose of ${piece}`);
  return pose;
};
const close = (point: readonly number[], expected: readonly number[]) =>
  point.forEach((value, i) => {
    expect(value).toBeCloseTo(expected[i], 9);
  });

const crashAt = (xMm: number, yMm: number, heightMm: number, carrier: NonNullable<Item['mount']>['carrier']): Item => ({
  ...item('crash', 'Crash', 'crash', xMm, yMm),
  place: { xMm, yMm, headingDeg: 0, heightMm },
  mount: { carrier, clamp: 'clamp-own', arm: 'boom-1' },
});

describe('where a post stands', () => {
  test('on a bar: beside it by the clamp, on the side that suits the arm', () => {
    // 50 + 400 along the bar is 400 from the first leg.
    const layout = layoutOf(crashAt(-600, -500, 900, { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 }));
    const pose = poseOf(layout, 'crash');
    close(pose.clampAt, [-800, -500, 700]);
    expect(Math.abs(pose.post[0] - -800)).toBeCloseTo(45, 9);
    expect(pose.post[1]).toBeCloseTo(-500, 9);
    close(pose.target, [-600, -500, 900]);
    expect(pose.reach.reached).toBe(true);
    expect(pose.horizontalMm).toBeCloseTo(Math.abs(-600 - pose.post[0]), 9);
    expect(pose.riseMm).toBe(200);
  });

  test('on an upright: the clamp swings as far as the arm needs', () => {
    // 100 from the leg: 55 with the clamp towards it, too near for an arm of 100 held level 50 up.
    const layout = layoutOf(crashAt(-700, -100, 750, { on: 'leg', rack: 'left', leg: 'l1', heightMm: 700 }));
    const pose = poseOf(layout, 'crash');
    expect(pose.reach.reached).toBe(true);
    expect(Math.hypot(pose.post[0] - -800, pose.post[1] - -100)).toBeCloseTo(45, 9);
    expect(Math.hypot(pose.post[0] - -700, pose.post[1] - -100)).toBeCloseTo(pose.horizontalMm, 9);
  });

  test('in a socket: of a platform at its place turned with the piece; of an arm on top of its post', () => {
    const tom: Item = {
      ...item('tom1', 'Tom', 'tom', -800, -260),
      place: { xMm: -800, yMm: -260, headingDeg: 90 },
      mount: { carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 }, clamp: null, arm: 'platform-2' },
    };
    const second: Item = {
      ...crashAt(-700, -300, 900, { on: 'socket', piece: 'tom1', socket: 1 }),
      mount: { carrier: { on: 'socket', piece: 'tom1', socket: 1 }, clamp: null, arm: 'boom-1' },
    };
    const layout = layoutOf(tom, second);
    const holder = poseOf(layout, 'tom1');
    // Socket 1 is 80 to the platform's right; at a heading of 90 degrees that is upstage.
    close(poseOf(layout, 'crash').post, [holder.post[0], holder.post[1] + 80, holder.elbow[2]]);
    expect(holder.elbow[2]).toBeCloseTo(700 + holder.reach.settings.postMm, 9);
  });

  test('a mount without an arm, on a bar that is not there, or in a circle, has no pose', () => {
    const bare = crashAt(0, 0, 900, { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 });
    expect(layoutOf({ ...bare, mount: { ...bare.mount!, arm: null } }).mounts).toEqual([]);
    expect(layoutOf(crashAt(0, 0, 900, { on: 'bar', rack: 'left', bar: 'no', atMm: 450 })).mounts).toEqual([]);
    const a: Item = { ...crashAt(0, 0, 900, { on: 'socket', piece: 'b', socket: 0 }), id: 'a' };
    const b: Item = { ...crashAt(0, 0, 900, { on: 'socket', piece: 'a', socket: 0 }), id: 'b' };
    expect(layoutOf(a, b).mounts).toEqual([]);
  });

  test('a link runs from tube to tube, axis to axis', () => {
    const stand: Item = {
      ...item('hat-stand', 'Stand', 'hat-stand', -560, -100),
      ties: [
        { carrier: { on: 'leg', rack: 'left', leg: 'l1', heightMm: 300 }, link: 'link-1', clamp: null, heightMm: 370 },
      ],
    };
    const pose = poseOf(layoutOf(stand), 'hat-stand');
    expect(pose).toMatchObject({ holds: 'tie', horizontalMm: 240, riseMm: 70 });
    expect(pose.reach.reached).toBe(true);
    expect(pose.reach.settings.armMm).toBeCloseTo(250, 9);
  });
});

describe('where a piece is taken hold of', () => {
  const tom = samplePlan().gear.tom as Extract<Gear, { kind: 'drum' }>;
  const at = (headingDeg: number, tiltDeg: number): Item => ({
    ...item('t', 'Tom', 'tom', 0, 0),
    place: { xMm: 0, yMm: 0, headingDeg, heightMm: 800, tiltDeg },
  });

  test('a level drum: at its shell towards the post, half-way down', () => {
    close(holdPoint(at(0, 0), tom, 0, -500), [0, -152.5, 800 - 101.5]);
    close(holdPoint(at(77, 0), tom, 300, 400), [91.5, 122, 698.5]);
  });

  test('a tilted drum: on the circle about the middle of its axis, nearest to the post in plan of all its points', () => {
    const item12 = at(30, 25);
    const [x, y, z] = holdPoint(item12, tom, 250, -310);
    const tilt = (25 * Math.PI) / 180;
    const heading = (30 * Math.PI) / 180;
    const normal = [-Math.sin(heading) * Math.sin(tilt), Math.cos(heading) * Math.sin(tilt), Math.cos(tilt)];
    const middle = [0, 0, 800].map((value, i) => value - 101.5 * normal[i]);
    const arm = [x - middle[0], y - middle[1], z - middle[2]];
    expect(Math.hypot(...arm)).toBeCloseTo(152.5, 9);
    expect(arm[0] * normal[0] + arm[1] * normal[1] + arm[2] * normal[2]).toBeCloseTo(0, 9);
    // Farthest of the circle's points along the way to the post.
    const along = (px: number, py: number) =>
      (px - middle[0]) * (250 - middle[0]) + (py - middle[1]) * (-310 - middle[1]);
    const e1 = [Math.cos(heading), Math.sin(heading), 0];
    const e2 = [-Math.sin(heading) * Math.cos(tilt), Math.cos(heading) * Math.cos(tilt), -Math.sin(tilt)];
    for (let k = 0; k < 720; k++) {
      const c = 152.5 * Math.cos((k * Math.PI) / 360);
      const s = 152.5 * Math.sin((k * Math.PI) / 360);
      expect(along(middle[0] + c * e1[0] + s * e2[0], middle[1] + c * e1[1] + s * e2[1])).toBeLessThanOrEqual(
        along(x, y) + 1e-6,
      );
    }
  });

  test('a cymbal: at its centre', () => {
    const crash = samplePlan().gear.crash;
    expect(holdPoint(at(0, 12), crash, 500, 500)).toEqual([0, 0, 800]);
  });
});

describe('arms as bodies', () => {
  const crash = crashAt(-600, -500, 1000, { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 });

  test('they belong to the piece and the rack it hangs on, run from the post to the piece, and weigh arm and clamp once', () => {
    const layout = layoutOf(crash);
    const arms = layout.bodies.filter(({ kind }) => kind === 'arm');
    expect(arms.length).toBeGreaterThan(1);
    for (const body of arms) {
      expect(body).toMatchObject({ piece: 'crash', assembly: 'left', touchesFloor: false });
      expect(body.z1).toBeGreaterThan(body.z0);
    }
    expect(arms.reduce((sum, { massKg }) => sum + (massKg ?? Number.NaN), 0)).toBeCloseTo(0.9 + 0.5, 12);
    const pose = poseOf(layout, 'crash');
    const heavy = arms.find(({ massKg }) => massKg);
    // Clamp of 0.5 kg at its tube, arm of 0.9 half-way from post to piece.
    close(
      heavy?.massCentre ?? [],
      [0, 1, 2].map((i) => (0.5 * pose.clampAt[i] + (0.9 * (pose.post[i] + pose.target[i])) / 2) / 1.4),
    );
  });

  test('an arm of unknown mass leaves its assembly unmeasured', () => {
    const plan = planWith(crash);
    plan.gear['boom-1'] = { ...plan.gear['boom-1'], massKg: null };
    const arms = layoutSetup(plan, 'straight').bodies.filter(({ kind }) => kind === 'arm');
    expect(arms.some(({ massKg }) => massKg === null)).toBe(true);
  });

  test('what did not move keeps its bodies; what holds it moving does not', () => {
    const plan = planWith(crash);
    const arm = (p: Plan) => layoutSetup(p, 'straight').bodies.find(({ id }) => id.startsWith('crash/arm'));
    const before = arm(plan);
    const { setups } = plan;
    const withPieces = (pieces: Plan['setups'][string]['pieces']): Plan => ({
      ...plan,
      setups: { ...setups, straight: { ...setups.straight, pieces } },
    });
    const { pieces } = setups.straight;
    expect(arm(withPieces({ ...pieces, front: { ...pieces.front } as never }))).toBe(before);
    const left = { ...pieces.left, place: { ...pieces.left.place, xMm: -790 } };
    expect(arm(withPieces({ ...pieces, left: left as never }))).not.toBe(before);
  });
});

test('law: a mirrored kit has the mirrored arms', () => {
  const plan = samplePlan();
  const mirrored = runCommand(plan, { type: 'mirrorSetup', setup: 'straight', axisXMm: 0 });
  if (!mirrored.ok) throw new Error('refused');
  const before = layoutSetup(plan, 'straight').mounts;
  const after = layoutSetup(mirrored.plan, 'straight').mounts;
  expect(before.length).toBeGreaterThan(3);
  before.forEach((pose, k) => {
    // A platform's own sockets are not mirrored with the kit, and neither is what hangs in them.
    if (pose.carrier.on === 'socket') return;
    close(after[k].post, [-pose.post[0], pose.post[1], pose.post[2]]);
    expect(after[k].reach.shortMm).toBeCloseTo(pose.reach.shortMm, 6);
    expect(after[k].reach.leftMm).toBeCloseTo(pose.reach.leftMm, 6);
  });
});
