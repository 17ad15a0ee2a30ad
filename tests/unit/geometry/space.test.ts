/** Distances in space: closed forms, laws, and brute force. */
import { describe, expect, test } from 'vitest';
import { capsule, disc, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import { drumSolid, movedSolid, type Point3, type Rod, type Solid } from '../../../src/geometry/solids.ts';
import { spaceGap } from '../../../src/geometry/space.ts';
import { seeded } from '../../fixtures/kits.ts';
import { few, seeds } from '../../fixtures/seeds.ts';
import { pointTo, sampledGap } from '../../fixtures/solidSamples.ts';

const leaning = (tiltDeg: number, towardsDeg = 0): Point3 => {
  const [tilt, towards] = [(tiltDeg * Math.PI) / 180, (towardsDeg * Math.PI) / 180];
  return [Math.sin(tilt) * Math.cos(towards), Math.sin(tilt) * Math.sin(towards), Math.cos(tilt)];
};
const plate = (at: Point3, tiltDeg: number, radius: number) => drumSolid(at, leaning(tiltDeg), radius, 0);
const rod = (a: Point3, b: Point3, radius: number): Rod => ({ kind: 'rod', a, b, radius });
const ball = (at: Point3, radius: number) => rod(at, at, radius);
const upright = (shape: Swept, z0: number, z1: number): Solid => ({ kind: 'upright', shape, z0, z1 });
const bend = (r: number, start: number, sweep: number, z: number, radius: number): Solid => ({
  kind: 'bend',
  core: { kind: 'arc', cx: 0, cy: 0, r, start, sweep },
  z,
  radius,
});
const sin20 = Math.sin(Math.PI / 9);
const cos20 = Math.cos(Math.PI / 9);

describe('closed forms', () => {
  test.each<readonly [string, Solid, Solid, number]>([
    ['two level discs, one over the other', plate([0, 0, 0], 0, 100), plate([30, 0, 42], 0, 80), 42],
    ['two level discs, diagonally apart: 3, 4, 5', plate([0, 0, 0], 0, 100), plate([203, 0, 4], 0, 100), 5],
    // Its normal leans to +x, so it falls to that side: the low edge is at 200 cos, -200 sin.
    ['a tilted disc over a plane', plate([0, 0, 100], 20, 200), upright(disc(0, 0, 900), -50, 0), 100 - 200 * sin20],
    [
      'a tilted disc and a ball beyond its low edge',
      plate([0, 0, 0], 20, 200),
      ball([260 * cos20, 0, -260 * sin20], 10),
      50,
    ],
    ['a tilted disc and a ball over its face', plate([0, 0, 0], 20, 200), ball([70 * sin20, 0, 70 * cos20], 15), 55],
    ['two rods that pass at right angles', rod([-50, 0, 0], [50, 0, 0], 10), rod([0, -50, 40], [0, 50, 40], 12), 18],
    [
      'two rods that are pressed into each other',
      rod([-50, 0, 0], [50, 0, 0], 10),
      rod([0, -50, 15], [0, 50, 15], 12),
      -7,
    ],
    [
      'a drum lying on its side and a plane',
      drumSolid([0, 0, 200], [1, 0, 0], 150, 400),
      upright(disc(0, 0, 900), 0, 10),
      40,
    ],
    [
      'two uprights, diagonally: 6, 8, 10',
      upright(disc(0, 0, 20), 0, 50),
      upright(rectangle(76, 0, 100, 40, 0), 58, 90),
      10,
    ],
    ['within: no distance', plate([0, 0, 50], 20, 100), upright(disc(0, 0, 40), 0, 100), 0],
    ['touching', plate([0, 0, 50], 0, 100), upright(disc(0, 0, 40), 0, 50), 0],
    [
      'a curved tube and a ball within its round',
      bend(500, 0, 2, 30, 19),
      ball([100, 200, 30], 11),
      470 - Math.hypot(100, 200),
    ],
    ['a curved tube and a ball past its end', bend(500, 0, 2, 30, 19), ball([500, -80, 30], 11), 50],
    ['a curved tube under a level disc', bend(500, 0, 2, 30, 19), plate([500, 20, 100], 0, 150), 51],
  ])('%s', (_, a, b, gap) => {
    for (const found of [spaceGap(a, b), spaceGap(b, a)]) {
      expect(Math.abs(found.gap - gap)).toBeLessThan(1e-3);
      expect(found.error).toBeLessThan(0.02);
    }
  });
});

/** A solid of ordinary size, as likely to be near another as far from it. */
function anySolid(random: () => number, bent = true): Solid {
  const near = (low: number, high: number) => low + (high - low) * random();
  const at: Point3 = [near(-350, 350), near(-350, 350), near(500, 1000)];
  const [x, y, z] = at;
  const normal = leaning(near(0, 40), near(0, 360));
  const radius = near(80, 280);
  switch (Math.floor(random() * (bent ? 10 : 9))) {
    case 0:
    case 1:
      return drumSolid(at, normal, radius, 0);
    case 2: {
      const b: Point3 = [x + 40 * normal[0], y + 40 * normal[1], z + 40 * normal[2]];
      return { kind: 'discs', normal, a: at, radiusA: radius, b, radiusB: 0.15 * radius };
    }
    case 3:
      return drumSolid(at, normal, near(100, 220), near(120, 420));
    case 4:
      return rod(at, [x + near(-400, 400), y + near(-400, 400), z + near(-300, 300)], near(5, 20));
    case 5: {
      const r = near(200, 320);
      const [low, high] = [near(-1, 0.5), near(0.5, 1)];
      const lying = { middle: at, angle: near(0, 7), halfLength: near(150, 300), radius: r };
      return { kind: 'lying', ...lying, z0: z + low * r, z1: z + high * r };
    }
    case 6:
      return upright(capsule(x, y, x + near(-300, 300), y + near(-300, 300), near(10, 180)), z - near(10, 400), z);
    case 7:
      return upright(rectangle(x, y, near(50, 400), near(50, 400), near(0, 7)), z - near(10, 400), z);
    case 8:
      return {
        kind: 'taper',
        a: at,
        radiusA: near(40, 120),
        b: [x + near(-400, 400), y + near(-400, 400), z + near(-300, 300)],
        radiusB: near(40, 120),
      };
    default:
      return bend(near(300, 900), near(0, 7), near(0.2, 2), z, 19);
  }
}

function anyPairs(seed: number, count: number): [Solid, Solid][] {
  const random = seeded(seed);
  const pairs: [Solid, Solid][] = [];
  while (pairs.length < count) {
    const [a, b] = [anySolid(random), anySolid(random)];
    if (a.kind === 'bend' && b.kind === 'bend') continue;
    if (a.kind !== 'upright' || b.kind !== 'upright') pairs.push([a, b]);
  }
  return pairs;
}

const PARTS = 10;

test.each(Array.from({ length: PARTS }, (_, k) => k))(
  '10,000 random pairs, part %i (30 of each in the ordinary run), against brute force',
  (part) => {
    const [seed] = seeds(1_000_000);
    const wrong: string[] = [];
    let apart = 0;
    for (const [a, b] of anyPairs(PARTS * seed + part, few(10_000 / PARTS, 30))) {
      const found = spaceGap(a, b);
      const { gap, error, meeting, ax, ay, az, bx, by, bz } = found;
      const sampled = sampledGap(a, b);
      const isRight = (): boolean => {
        if (meeting) return sampled < 0.5;
        if (Math.abs(gap - sampled) > 0.5) return false;
        if (gap < 0) return true;
        apart++;
        const between = Math.hypot(bx - ax, by - ay, bz - az);
        return (
          // Sampling finds no less than there is, and what is proven is proven.
          sampled > gap - error - 1e-6 &&
          error < 0.02 &&
          // Both points lie on their solids, as far apart as is said.
          Math.abs(pointTo(a, [ax, ay, az])) < 0.02 &&
          Math.abs(pointTo(b, [bx, by, bz])) < 0.02 &&
          Math.abs(between - gap) < 1e-6
        );
      };
      if (!isRight()) wrong.push(JSON.stringify([a, b, found, sampled]));
    }
    expect(wrong).toEqual([]);
    expect(apart).toBeGreaterThan(few(10_000 / PARTS, 30) / 4);
  },
);

test('the other way round, and turned and shifted in plan, it is the same', () => {
  const [seed] = seeds(1_000_000);
  for (const [a, b] of anyPairs(seed, few(5000, 200))) {
    const said = JSON.stringify([seed, a, b]);
    const gap = spaceGap(a, b).gap;
    expect(Math.abs(spaceGap(b, a).gap - gap), said).toBeLessThan(0.02);
    if (a.kind === 'upright' || b.kind === 'upright' || a.kind === 'bend' || b.kind === 'bend') continue;
    const motion = { angle: 2.1, dx: 3100, dy: -1450 };
    expect(Math.abs(spaceGap(movedSolid(a, motion), movedSolid(b, motion)).gap - gap), said).toBeLessThan(1e-4);
  }
});

test('with a reach: the same distance within it, and a bound from below beyond', () => {
  const [seed] = seeds(1_000_000);
  for (const [a, b] of anyPairs(seed, few(5000, 200))) {
    const whole = spaceGap(a, b);
    const held = spaceGap(a, b, 60);
    const said = JSON.stringify([seed, a, b]);
    if (whole.gap < 59.9) expect(Math.abs(held.gap - whole.gap), said).toBeLessThan(0.02);
    if (whole.gap > 60.1) expect(held.beyond, said).toBe(true);
    if (held.beyond) {
      expect(held.gap, said).toBeGreaterThanOrEqual(60 - 1e-9);
      expect(held.gap, said).toBeLessThanOrEqual(whole.gap + 0.02);
    }
  }
});
