/** Which of the settings that reach is taken: the one that clears its own piece, and what stands about. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../../src/checks/run.ts';
import { gearOf } from '../../../src/gear/catalogue.ts';
import { type Layout, layoutSetup } from '../../../src/layout/layout.ts';
import type { MountPose } from '../../../src/layout/reachMounts.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Mount, Plan } from '../../../src/plan/schema.ts';
import { proposeMount } from '../../../src/solve/proposeMount.ts';
import { item, planOf, rack } from '../../fixtures/plans.ts';
import { runs } from '../../fixtures/seeds.ts';

/** A bar along the page's x, 700 mm up. */
const bar = rack('left', 'Left rack', 0, 0, 0);
const onBar = (atMm: number, arm: string, more: Partial<Mount> = {}): Mount => ({
  carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm },
  clamp: 'clamp-own',
  arm,
  ...more,
});
const cymbal = (place: Partial<Item['place']>, mount: Mount, gear = 'ride-20'): Item => ({
  ...item('c', 'Ride', gear, 0, 0),
  place: { xMm: 0, yMm: 0, headingDeg: 0, ...place },
  mount,
});
const poseOf = (plan: Plan, piece = 'c'): MountPose =>
  layoutSetup(plan, 's').mounts.find((pose) => pose.piece === piece && pose.holds === 'mount')!;
const codes = (plan: Plan) =>
  runChecks(plan, 's', layoutSetup(plan, 's'))
    .findings.filter(({ state }) => state === 'blocked')
    .map(({ code }) => code);

describe('one cymbal on a bar', () => {
  test('the tallest post would stand in its own ride: a lower one is taken', () => {
    // 180 mm beside the post and 400 mm above the bar: the arm of 200 to 600 mm would hang down from the tallest post.
    const mount = onBar(450, 'boom-long', { side: 'left' });
    const plan = planOf(bar, cymbal({ xMm: 400, yMm: 225, heightMm: 1100 }, mount));
    const { reach, post } = poseOf(plan);
    expect(Math.hypot(post[0] - 400, post[1] - 225)).toBeLessThan(254);
    expect(reach.settings.postMm).toBeLessThan(400);
    expect(reach.settings.tiltDeg).toBeGreaterThan(0);
    expect(codes(plan)).not.toContain('overlaps_itself');
  });

  test('the plan says the side, and the arm passes there, best or not', () => {
    const at = (side?: 'left' | 'right') =>
      poseOf(
        planOf(
          bar,
          cymbal({ xMm: 400, yMm: 300, heightMm: 1200 }, onBar(450, 'boom-long', side === undefined ? {} : { side })),
        ),
      );
    // Going along the bar, which runs to the page's right, left is upstage.
    expect(at('left').post[1]).toBeCloseTo(45, 9);
    expect(at('right').post[1]).toBeCloseTo(-45, 9);
    const far = at('right');
    expect(far.reach.reached).toBe(true);
    expect(far.horizontalMm).toBeCloseTo(345, 9);
  });

  test('a side from which it does not reach is told, and not changed', () => {
    const plan = planOf(
      bar,
      cymbal({ xMm: 400, yMm: 600, heightMm: 1100 }, onBar(450, 'boom-long', { side: 'right' })),
    );
    expect(poseOf(plan).post[1]).toBeCloseTo(-45, 9);
    expect(codes(plan)).toContain('arm_misses');
  });

  test('about an upright: left and right as one looks at the piece, mirrored with the kit', () => {
    const plan = (side: 'left' | 'right') =>
      planOf(
        bar,
        cymbal(
          { xMm: -300, yMm: -250, heightMm: 1200 },
          {
            carrier: { on: 'leg', rack: 'left', leg: 'l1', heightMm: 600 },
            clamp: 'clamp-own',
            arm: 'boom-long',
            side,
          },
        ),
      );
    const sides = (['left', 'right'] as const).map((side) => {
      const { post, target } = poseOf(plan(side));
      return Math.sign(target[0] * post[1] - target[1] * post[0]);
    });
    expect(sides).toEqual([1, -1]);
    const mirrored = runCommand(plan('left'), { type: 'mirrorSetup', setup: 's', axisXMm: 0 });
    if (!mirrored.ok) throw new Error('It mirrors.');
    expect((mirrored.plan.setups.s.pieces.c as Item).mount?.side).toBe('right');
    const [was, is] = [poseOf(plan('left')), poseOf(mirrored.plan)];
    expect([-was.post[0], was.post[1]]).toEqual([expect.closeTo(is.post[0], 6), expect.closeTo(is.post[1], 6)]);
  });

  test('a boom goes round what stands in its way', () => {
    const ride = cymbal({ xMm: 400, yMm: 350, heightMm: 1000 }, onBar(450, 'boom-long'));
    const free = poseOf(planOf(bar, ride));
    // A second cymbal where the boom would be.
    const other: Item = {
      ...item('other', 'Other', 'splash-10', 400, 150),
      place: { xMm: 400, yMm: 150, headingDeg: 0, heightMm: free.elbow[2] },
      mount: null,
    };
    const plan = planOf(bar, other, ride);
    const around = poseOf(plan);
    expect(around.reach.reached).toBe(true);
    expect(around.elbow).not.toEqual(free.elbow);
    // The two cymbals may still be in each other's way; the boom is in nobody's.
    const struck = runChecks(plan, 's', layoutSetup(plan, 's')).findings.filter(
      ({ code, bodies }) => code === 'overlap' && bodies.some((body) => body.startsWith('c/') && body !== 'c/cymbal'),
    );
    expect(struck).toEqual([]);
  });
});

/** Post and arm lead from the post's foot to the piece, and are within what the gear can do. */
function expectBuildable({ arm, post, target, reach }: MountPose): void {
  const { postMm, armMm, tiltDeg } = reach.settings;
  if (arm.kind !== 'boom') return;
  const tilt = (tiltDeg * Math.PI) / 180;
  expect(Math.hypot(target[0] - post[0], target[1] - post[1])).toBeCloseTo(armMm * Math.cos(tilt), 6);
  expect(target[2] - post[2]).toBeCloseTo(postMm + armMm * Math.sin(tilt), 6);
  for (const [value, [low, high]] of [
    [postMm, arm.postMm],
    [armMm, arm.armMm],
    [tiltDeg, arm.tiltDeg],
  ] as const) {
    expect(value).toBeGreaterThan(low - 1e-6);
    expect(value).toBeLessThan(high + 1e-6);
  }
}

const CYMBALS = ['ride-20', 'crash-16', 'crash-18', 'splash-10', 'china-18'];
const TOMS = ['tom-10x8', 'tom-12x8', 'tom-13x9', 'floor-tom-14x14', 'floor-tom-16x16'];

/** Whether a place is inside the piece's own solid, by its own frame: the drum's shell, or the cymbal raised by its tilter. */
function isWithin(plan: Plan, { place, gear: id }: Item, [x, y, z]: readonly number[]): boolean {
  const gear = gearOf(plan.gear, id);
  if (gear?.kind !== 'drum' && gear?.kind !== 'cymbal') return false;
  const tilt = ((place.tiltDeg ?? 0) * Math.PI) / 180;
  const turned = (place.headingDeg * Math.PI) / 180;
  const [dx, dy, dz] = [x - place.xMm, y - place.yMm, z - place.heightMm!];
  const back = -Math.sin(turned) * dx + Math.cos(turned) * dy;
  const side = Math.cos(turned) * dx + Math.sin(turned) * dy;
  const up = back * Math.sin(tilt) + dz * Math.cos(tilt);
  const along = back * Math.cos(tilt) - dz * Math.sin(tilt);
  const [low, high] = gear.kind === 'drum' ? [-gear.depthMm, 0] : [40, 40 + gear.profileMm];
  return up >= low && up <= high && Math.hypot(side, along) <= gear.diameterMm / 2;
}

const inItself = (plan: Plan, { mounts }: Layout, held: Item): boolean => {
  const { post, elbow } = mounts.find(({ piece }) => piece === held.id)!;
  return Array.from({ length: 201 }, (_, k) => post[2] + ((elbow[2] - post[2]) * k) / 200).some((z) =>
    isWithin(plan, held, [post[0], post[1], z]),
  );
};

test('law: no mount that is offered has its post in its own drum or cymbal, or runs into anything; all can be built', () => {
  let offered = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...CYMBALS, ...TOMS),
      fc.integer({ min: -300, max: 1200 }),
      fc.integer({ min: -500, max: 500 }),
      fc.integer({ min: 600, max: 1400 }),
      fc.integer({ min: -25, max: 25 }),
      fc.integer({ min: 0, max: 359 }),
      (gear, xMm, yMm, heightMm, tiltDeg, headingDeg) => {
        const bare: Item = {
          ...item('c', 'Piece', gear, xMm, yMm),
          place: { xMm, yMm, headingDeg, heightMm, tiltDeg },
          mount: null,
        };
        const beside: Item = {
          ...item('t', 'Tom', 'tom-12x8', 300, -350),
          place: { xMm: 300, yMm: -350, headingDeg: 0, heightMm: 850 },
          mount: onBar(350, 'l-arm'),
        };
        const plan = planOf(bar, beside, bare);
        const best = proposeMount(plan, plan.setups.s, layoutSetup(plan, 's'), bare);
        if (!best?.mount.arm) return;
        offered++;
        const held = { ...bare, mount: best.mount };
        const with_ = planOf(bar, beside, held);
        const layout = layoutSetup(with_, 's');
        expectBuildable(layout.mounts.find(({ piece }) => piece === 'c')!);
        expect(inItself(with_, layout, held)).toBe(false);
        const blocked = runChecks(with_, 's', layout).findings.filter(
          ({ state, check, bodies }) =>
            state === 'blocked' &&
            check === 'clearance' &&
            bodies.some((body) => body.startsWith('c/') && !/shell|cymbal/.test(body)),
        );
        // Where the piece itself stands in something, no arm helps.
        expect(blocked.map(({ code, bodies }) => [code, ...bodies])).toEqual([]);
      },
    ),
    runs(600, 40),
  );
  expect(offered).toBeGreaterThan(5);
});

test('law: where any post on either side would clear the cymbal that it holds, the one that is taken does', () => {
  let clears = 0;
  fc.assert(
    fc.property(
      fc.constantFrom('boom-short', 'boom-medium', 'boom-long', 'boom-extra-long'),
      fc.integer({ min: 0, max: 900 }),
      fc.integer({ min: -500, max: 500 }),
      fc.integer({ min: 850, max: 1500 }),
      fc.integer({ min: -25, max: 25 }),
      fc.integer({ min: 0, max: 359 }),
      (arm, xMm, yMm, heightMm, tiltDeg, headingDeg) => {
        const held = cymbal({ xMm, yMm, heightMm, tiltDeg, headingDeg }, onBar(450, arm));
        const plan = planOf(bar, held);
        const pose = poseOf(plan);
        if (!pose.reach.reached || pose.arm.kind !== 'boom') return;
        expectBuildable(pose);
        const { postMm, armMm, tiltDeg: tilts } = pose.arm;
        /** Whether a post of this length on this side reaches, and stays out of the cymbal by its own radius and 15 mm more. */
        const isClear = (y: number, post: number): boolean => {
          const level = Math.hypot(xMm - 400, yMm - y);
          const up = heightMm - 700 - post;
          const long = Math.hypot(level, up);
          const angle = (Math.atan2(up, level) * 180) / Math.PI;
          if (long < armMm[0] || long > armMm[1] || angle < tilts[0] || angle > tilts[1]) return false;
          const gear = gearOf(plan.gear, held.gear);
          const wide = pose.arm.kind === 'boom' ? pose.arm.tubeMm / 2 + 15 : 0;
          if (gear?.kind !== 'cymbal') return false;
          // A cymbal that is thicker and wider by as much is entered sooner.
          for (let k = 0; k <= 100; k++) {
            const share = k / 100;
            const arms = [400 + (xMm - 400) * share, y + (yMm - y) * share, 700 + post + up * share];
            for (const place of [arms, [400, y, 700 + post * share]])
              if (isNearDisc(held, gear.diameterMm / 2, gear.profileMm, place, wide)) return false;
          }
          return true;
        };
        const posts = Array.from({ length: 41 }, (_, k) => postMm[0] + ((postMm[1] - postMm[0]) * k) / 40);
        if (![45, -45].some((y) => posts.some((post) => isClear(y, post)))) return;
        clears++;
        expect(codes(plan)).not.toContain('overlaps_itself');
      },
    ),
    runs(600, 60),
  );
  expect(clears).toBeGreaterThan(5);
});

/** Whether a place is nearer than `wide` to a cymbal that sits 40 mm above its place: in its own frame, along the disc and across it. */
function isNearDisc(
  { place }: Item,
  radius: number,
  profile: number,
  [x, y, z]: readonly number[],
  wide: number,
): boolean {
  const tilt = ((place.tiltDeg ?? 0) * Math.PI) / 180;
  const turned = (place.headingDeg * Math.PI) / 180;
  const [dx, dy, dz] = [x - place.xMm, y - place.yMm, z - place.heightMm!];
  const back = -Math.sin(turned) * dx + Math.cos(turned) * dy;
  const side = Math.cos(turned) * dx + Math.sin(turned) * dy;
  const up = back * Math.sin(tilt) + dz * Math.cos(tilt) - 40;
  const along = Math.hypot(side, back * Math.cos(tilt) - dz * Math.sin(tilt));
  return Math.hypot(Math.max(0, along - radius), Math.max(0, -up, up - profile)) < wide;
}
