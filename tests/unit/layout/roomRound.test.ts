/** What an arm looks at for room: just what lies over its box, in the order added, however it is found. */
import { expect, test } from 'vitest';
import { capsule } from '../../../src/geometry/shapes.ts';
import { boxOf } from '../../../src/geometry/support.ts';
import type { Body } from '../../../src/layout/body.ts';
import { Surroundings } from '../../../src/layout/roomRound.ts';
import { seeded } from '../../fixtures/kits.ts';
import { seeds } from '../../fixtures/seeds.ts';

const carrier = { on: 'piece', piece: 'nobody' } as const;

test.each(seeds(40, 8))('random stages, seed %i', (seed) => {
  const random = seeded(seed);
  const between = (low: number, high: number) => low + (high - low) * random();
  const body = (k: number): Body => {
    const [x, y] = [between(-6000, 6000), between(-6000, 6000)];
    // Most are as long as a tube, a few as long as the stage.
    const long = random() < 0.1 ? 20_000 : 1200;
    const shape = capsule(x, y, x + between(-long, long), y + between(-long, long), between(1, 300));
    const common = { label: '', part: 'shell', assembly: '', touchesFloor: false, massKg: null, massCentre: null };
    return {
      ...common,
      id: `${k}`,
      piece: `p${k % 30}`,
      kind: k % 9 === 0 ? 'stageItem' : 'tom',
      z0: 0,
      z1: 1000,
      shape,
    };
  };
  const bodies = Array.from({ length: 120 }, (_, k) => body(k));
  const round = new Surroundings();
  round.add(bodies.slice(0, 70));
  round.add(bodies.slice(70));
  let some = 0;
  for (let k = 0; k < 60; k++) {
    const [minX, minY] = [between(-7000, 7000), between(-7000, 7000)];
    const size = k % 10 === 0 ? 30_000 : 900;
    const box = { minX, minY, maxX: minX + between(0, size), maxY: minY + between(0, size) };
    const over = bodies.filter(({ kind, piece, shape }) => {
      const its = boxOf(shape);
      const meets = its.minX <= box.maxX && its.maxX >= box.minX && its.minY <= box.maxY && its.maxY >= box.minY;
      return meets && kind !== 'stageItem' && piece !== 'p3';
    });
    some += over.length;
    expect(round.near('p3', carrier, box).map(({ id }) => id)).toEqual(over.map(({ id }) => id));
  }
  expect(some).toBeGreaterThan(100);
});
