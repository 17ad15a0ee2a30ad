import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CATALOGUE } from '../../../src/gear/catalogue.ts';
import { type ArmGear, socketsOf } from '../../../src/gear/kinds.ts';
import type { GearOf } from '../../../src/gear/schema.ts';
import { armsThatReach, reachOf, reachSwung } from '../../../src/layout/reach.ts';
import { type ArmRange, nearestReach, roomAround, usablePosts } from '../../../src/layout/reachRegion.ts';
import { runs } from '../../fixtures/seeds.ts';

const rad = (degrees: number) => (degrees * Math.PI) / 180;

const boom = (postMm: [number, number], armMm: [number, number], tiltDeg: [number, number]): GearOf<'boom'> => ({
  kind: 'boom',
  id: 'boom',
  name: 'Boom',
  massKg: 1,
  tubeMm: 20,
  postMm,
  armMm,
  tiltDeg,
});
const lArm: GearOf<'lArm'> = {
  kind: 'lArm',
  id: 'l',
  name: 'L-arm',
  massKg: 1,
  tubeMm: 20,
  postMm: [0, 300],
  armMm: [100, 250],
  ballTiltDeg: [0, 40],
};
const platform: GearOf<'platform'> = {
  kind: 'platform',
  id: 'p',
  name: 'Platform',
  massKg: 1,
  postMm: [0, 350],
  sockets: [
    { xMm: -60, yMm: 0, use: 'tom' },
    { xMm: 0, yMm: 55, use: 'rear' },
  ],
};
const link: GearOf<'link'> = {
  kind: 'link',
  id: 'k',
  name: 'Link',
  massKg: 1,
  tubeMm: 20,
  lengthMm: [150, 400],
  passHeightMm: 0,
};

describe('named cases', () => {
  const b = boom([100, 300], [200, 400], [0, 90]);
  test.each([
    // name                                       arm       d    dz    short, mm
    ['within', b, 300, 300, 0],
    ['at full stretch, level, lowest post', b, 400, 100, 0],
    ['at full stretch, upright, tallest post', b, 0, 700, 0],
    ['1 mm beyond full stretch', b, 401, 100, 1],
    ['3-4-5 beyond the outer corner', b, 404, 97, 5],
    ['below the lowest post', b, 300, 60, 40],
    ['straight above, 10 mm too high', b, 0, 710, 10],
    ['too near: the arm cannot shorten that much', b, 150, 100, Math.hypot(0, 0) + 50],
    ['too near and low: nearest is the inner level end', b, 160, 70, 50],
    ['L-arm within', lArm, 200, 150, 0],
    ['L-arm 3-4-5 out of its rectangle', lArm, 253, 304, 5],
    ['L-arm at its corner', lArm, 250, 300, 0],
    ['platform at its socket', platform, 60, 350, 0],
    ['platform 20 mm aside', platform, 80, 100, 20],
    ['link, 3-4-5 in range', link, 180, 240, 0],
    ['link, 100 too long', link, 300, -400, 100],
    ['link, 50 too short', link, 0, 100, 50],
  ] as [string, ArmGear, number, number, number][])('%s', (_, arm, d, dz, shortMm) => {
    const reach = reachOf(arm, d, dz);
    expect(reach.shortMm).toBeCloseTo(shortMm, 9);
    expect(reach.reached).toBe(shortMm === 0);
    expect(Math.hypot(reach.changeMm.out, reach.changeMm.up)).toBeCloseTo(shortMm, 9);
  });

  test('a straight post holds what is right above it, and no more', () => {
    const post = boom([100, 700], [0, 0], [0, 0]);
    expect(reachOf(post, 0, 500).reached).toBe(true);
    expect(reachOf(post, 0, 500).settings).toMatchObject({ postMm: 500, armMm: 0, tiltDeg: 0 });
    expect(reachOf(post, 30, 740).shortMm).toBeCloseTo(50, 9);
  });

  test('a ball joint that cannot make the tilt does not reach, and says how much is missing', () => {
    expect(reachOf(lArm, 200, 150, 40).reached).toBe(true);
    expect(reachOf(lArm, 200, 150, -40).reached).toBe(true);
    const steep = reachOf(lArm, 200, 150, 47);
    expect(steep.reached).toBe(false);
    expect(steep.shortMm).toBe(0);
    expect(steep.tiltShortDeg).toBeCloseTo(7, 12);
  });

  test('room left: an L-arm in its rectangle', () => {
    const { room, leftMm } = reachOf(lArm, 120, 290);
    expect(room).toEqual({ outMm: 130, inMm: 20, upMm: 10, downMm: 290 });
    expect(leftMm).toBe(10);
  });

  test('a clamp on an upright swings until the arm reaches', () => {
    // Clamp 45 from the upright, piece 100 away: 55 to 145 from the socket; the L-arm begins at 100.
    const { reach, horizontalMm } = reachSwung(lArm, 55, 145, 150);
    expect(reach.reached).toBe(true);
    expect(horizontalMm).toBe(100);
    expect(reachSwung(lArm, 120, 200, 150).horizontalMm).toBe(120);
    expect(reachSwung(lArm, 20, 80, 150).reach.shortMm).toBeCloseTo(20, 9);
  });

  test('sockets: a platform says where, an arm carries them on its post, a link has none', () => {
    expect(socketsOf(platform)).toHaveLength(2);
    expect(socketsOf({ ...lArm, sockets: 1 })).toEqual([{ xMm: 0, yMm: 0, use: 'rear' }]);
    expect(socketsOf(link)).toEqual([]);
  });

  test('offers come least waste first, and all of them reach', () => {
    const offers = armsThatReach(CATALOGUE, ['boom'], 350, 400);
    expect(offers.length).toBeGreaterThan(1);
    for (let i = 1; i < offers.length; i++) expect(offers[i].wasteMm).toBeGreaterThanOrEqual(offers[i - 1].wasteMm);
    for (const { reach, wasteMm } of offers) {
      expect(reach.reached).toBe(true);
      expect(wasteMm).toBeGreaterThanOrEqual(0);
    }
    expect(armsThatReach(CATALOGUE, ['boom'], 5000, 0)).toEqual([]);
  });
});

const span = (low: number, high: number) =>
  fc
    .tuple(fc.integer({ min: low, max: high }), fc.integer({ min: low, max: high }))
    .map(([a, b]): [number, number] => [Math.min(a, b), Math.max(a, b)]);
const ranges = fc
  .record({ post: span(0, 500), arm: span(0, 500), tilt: span(-90, 90) })
  .map(({ post, arm, tilt }): ArmRange => ({ post, arm, tilt: [rad(tilt[0]), rad(tilt[1])] }));
const targets = fc.tuple(fc.integer({ min: 0, max: 1000 }), fc.integer({ min: -600, max: 1200 }));

/** Every reachable place on a grid of settings: the plain reading of the definition. */
function* sampled({ post, arm, tilt }: ArmRange, steps: number): Generator<[number, number]> {
  const at = ([low, high]: readonly [number, number], k: number) => low + ((high - low) * k) / steps;
  for (let i = 0; i <= steps; i++)
    for (let j = 0; j <= steps; j++)
      for (let k = 0; k <= steps; k++) {
        const a = at(arm, j);
        yield [a * Math.cos(at(tilt, k)), at(post, i) + a * Math.sin(at(tilt, k))];
      }
}
const STEPS = 32;
/** No reachable place is farther than this from a sampled one: half a step of post, of arm, and of the arm's swing. */
const coarse = ({ post, arm, tilt }: ArmRange) =>
  (post[1] - post[0] + (arm[1] - arm[0]) + arm[1] * (tilt[1] - tilt[0])) / STEPS / 2 + 1e-6;

describe('laws on random arms', () => {
  test('the missing distance is that to the nearest of densely sampled places', () => {
    fc.assert(
      fc.property(ranges, targets, (range, [d, dz]) => {
        let nearest = Number.POSITIVE_INFINITY;
        for (const [x, y] of sampled(range, STEPS)) nearest = Math.min(nearest, Math.hypot(x - d, y - dz));
        const short = usablePosts(range, d, dz).length > 0 ? 0 : nearestReach(range, d, dz).shortMm;
        expect(short).toBeLessThanOrEqual(nearest + 1e-6);
        expect(short).toBeGreaterThanOrEqual(nearest - coarse(range));
      }),
      runs(150),
    );
  });

  test('the settings do what they say: within range, and they bring the piece to its place or to the nearest one', () => {
    fc.assert(
      fc.property(span(0, 500), span(0, 500), span(-90, 90), targets, (post, arm, tilt, [d, dz]) => {
        const { reached, shortMm, changeMm, settings } = reachOf(boom(post, arm, tilt), d, dz);
        const { postMm, armMm, tiltDeg } = settings;
        expect(reached).toBe(shortMm === 0);
        expect(postMm).toBeGreaterThanOrEqual(post[0] - 1e-6);
        expect(postMm).toBeLessThanOrEqual(post[1] + 1e-6);
        expect(armMm).toBeGreaterThanOrEqual(arm[0] - 1e-6);
        expect(armMm).toBeLessThanOrEqual(arm[1] + 1e-6);
        if (armMm > 1e-3) {
          expect(tiltDeg).toBeGreaterThanOrEqual(tilt[0] - 1e-3);
          expect(tiltDeg).toBeLessThanOrEqual(tilt[1] + 1e-3);
        }
        expect(armMm * Math.cos(rad(tiltDeg))).toBeCloseTo(d + changeMm.out, 6);
        expect(postMm + armMm * Math.sin(rad(tiltDeg))).toBeCloseTo(dz + changeMm.up, 6);
      }),
      runs(500),
    );
  });

  test('whatever some setting makes is reached', () => {
    fc.assert(
      fc.property(
        ranges,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        ({ post, arm, tilt }, u, v, w) => {
          const a = arm[0] + (arm[1] - arm[0]) * u;
          const t = tilt[0] + (tilt[1] - tilt[0]) * v;
          const p = post[0] + (post[1] - post[0]) * w;
          const gear = boom([...post] as [number, number], [...arm] as [number, number], [
            (tilt[0] * 180) / Math.PI,
            (tilt[1] * 180) / Math.PI,
          ]);
          expect(reachOf(gear, Math.max(0, a * Math.cos(t)), p + a * Math.sin(t)).reached).toBe(true);
        },
      ),
      runs(500),
    );
  });

  test('room: just short of each limit is reached, just past it is not', () => {
    const step = 1e-4;
    fc.assert(
      fc.property(ranges, targets, (range, [d, dz]) => {
        fc.pre(usablePosts(range, d, dz).length > 0);
        const reached = (x: number, y: number) => x >= 0 && usablePosts(range, x, y).length > 0;
        const { outMm, inMm, upMm, downMm } = roomAround(range, d, dz);
        expect(reached(d + outMm + step, dz)).toBe(false);
        expect(reached(d - inMm - step, dz)).toBe(false);
        expect(reached(d, dz + upMm + step)).toBe(false);
        expect(reached(d, dz - downMm - step)).toBe(false);
        // Arms of one tilt or one length reach along a line: whether a place is on it is told to rounding.
        const isHeld = (x: number, y: number) => reached(x, y) || nearestReach(range, x, y).shortMm < 1e-6;
        for (const share of [0.25, 0.5, 0.75, 1 - 1e-6]) {
          expect(isHeld(d + outMm * share, dz)).toBe(true);
          expect(isHeld(d - inMm * share, dz)).toBe(true);
          expect(isHeld(d, dz + upMm * share)).toBe(true);
          expect(isHeld(d, dz - downMm * share)).toBe(true);
        }
      }),
      runs(1000),
    );
  });
});
