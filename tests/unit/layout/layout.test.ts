/** Bodies of each family, by hand from the gear's sizes; and what is kept between two layouts. */
import { describe, expect, test } from 'vitest';
import { assemblyRoots } from '../../../src/layout/assemblies.ts';
import type { Body } from '../../../src/layout/body.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Piece, Plan } from '../../../src/plan/schema.ts';
import { samplePlan } from '../../fixtures/plans.ts';

function piece(id: string, gear: string, more: Partial<Item> = {}, place = {}): Item {
  return {
    kind: 'item',
    id,
    name: id,
    gear,
    mount: null,
    ...more,
    place: { xMm: 100, yMm: 200, headingDeg: 0, ...place },
  };
}

function planOf(...pieces: Piece[]): Plan {
  const record = Object.fromEntries(pieces.map((each) => [each.id, each]));
  const setup = { id: 's', name: 'S', riser: null, pieces: record, order: pieces.map(({ id }) => id) };
  return { ...samplePlan(), setups: { s: setup }, order: ['s'] };
}

const bodiesOf = (...pieces: Piece[]) => layoutSetup(planOf(...pieces), 's').bodies;
const part = (bodies: readonly Body[], name: string) => {
  const found = bodies.find((body) => body.part === name);
  if (!found) throw new Error(`No part ${name} among ${bodies.map((body) => body.part).join(', ')}.`);
  return found;
};

test('a level drum: its hoop is its outline, its heights are its depth', () => {
  const shell = part(bodiesOf(piece('snare', 'snare-14x5.5', {}, { heightMm: 650 })), 'shell');
  expect(shell.shape).toEqual({ core: { kind: 'point', x: 100, y: 200 }, radius: 355.6 / 2 + 10 });
  expect(shell.z0).toBeCloseTo(650 - 139.7, 9);
  expect(shell.z1).toBe(650);
  expect([shell.massKg, shell.touchesFloor]).toEqual([3.4, false]);
});

test('a drum tilted to its front by 30 degrees: its bottom goes forward by half its depth', () => {
  const tom = { heightMm: 800, tiltDeg: 30 };
  const shell = part(bodiesOf(piece('tom', 'tom-12x8', {}, tom)), 'shell');
  const radius = 304.8 / 2 + 10;
  const { core } = shell.shape;
  if (core.kind !== 'segment') throw new Error('A tilted drum is a segment.');
  expect(Math.abs(core.y1 - core.y0)).toBeCloseTo(203.2 / 2, 9);
  // Rims stand radius x sin 30 above the top's centre and below the bottom's.
  expect(shell.z1).toBeCloseTo(800 + radius / 2, 9);
  expect(shell.z0).toBeCloseTo(800 - 203.2 * Math.cos(Math.PI / 6) - radius / 2, 9);
});

test('a floor tom on its own legs stands on three tips; on a mount it has none', () => {
  const tips = (bodies: readonly Body[]) => bodies.filter((body) => body.touchesFloor);
  const standing = tips(bodiesOf(piece('ft', 'floor-tom-16x16')));
  expect(standing.length).toBe(3);
  for (const { shape } of standing) {
    if (shape.core.kind !== 'point') throw new Error('A tip is a disc.');
    expect(Math.hypot(shape.core.x - 100, shape.core.y - 200)).toBeCloseTo(466.4 / 2, 9);
  }
  const stand = piece('stand', 'stand-snare');
  const carrier = { on: 'piece' as const, piece: 'stand' };
  const held = piece('ft', 'floor-tom-16x16', { mount: { carrier, clamp: null, arm: null } });
  expect(tips(bodiesOf(stand, held)).every((body) => body.piece === 'stand')).toBe(true);
});

test('a bass drum rests on its batter hoop and two spurs, and its slabs hold the whole cylinder', () => {
  const bodies = bodiesOf(piece('bass', 'bass-22x16'));
  expect(bodies.filter((body) => body.touchesFloor).map((body) => body.part)).toEqual([
    'hoop',
    'right-tip',
    'left-tip',
  ]);
  const radius = 558.8 / 2 + 12;
  const slabs = bodies.filter((body) => body.kind === 'bassDrum' && body.part !== 'hoop');
  // At each height the widest slab there is at least as wide as the cylinder.
  for (let z = 1; z < 2 * radius; z += 1) {
    const half = Math.sqrt(radius ** 2 - (z - radius) ** 2);
    const widest = Math.max(
      ...slabs
        .filter((body) => body.z0 <= z && z <= body.z1)
        .map(({ shape: { core } }) =>
          core.kind === 'polygon' ? Math.max(...core.points.filter((_, k) => k % 2 === 0)) - 100 : 0,
        ),
    );
    expect(widest, `height ${z}`).toBeGreaterThanOrEqual(half - 1e-9);
  }
});

test('a double pedal is two pedals and a shaft between their towers', () => {
  const second = { xMm: -320, yMm: 90, headingDeg: 15 };
  const bodies = bodiesOf(piece('pedal', 'double-pedal', { second }));
  const { core, radius } = part(bodies, 'shaft').shape;
  if (core.kind !== 'segment') throw new Error('A shaft is a segment.');
  expect(radius).toBe(6);
  // Towers are 60 mm deep at the front of a board of 310 mm: 125 mm before its middle.
  const c = Math.cos(Math.PI / 12);
  const s = Math.sin(Math.PI / 12);
  const ends = [100, 200 - 125, 100 - 320 + 125 * s, 200 + 90 - 125 * c];
  [core.x0, core.y0, core.x1, core.y1].forEach((value, k) => {
    expect(value).toBeCloseTo(ends[k], 9);
  });
  expect(bodies.reduce((sum, body) => sum + (body.massKg ?? 0), 0)).toBeCloseTo(5, 9);
});

test('a rack: two uprights, two T-feet, one bar, with masses from their sections', () => {
  const plan = samplePlan();
  const layout = layoutSetup(plan, 'straight');
  const left = layout.bodies.filter((body) => body.piece === 'left' && body.kind !== 'arm' && body.kind !== 'link');
  const kinds = left.filter(({ kind }) => kind === 'leg' || kind === 'foot' || kind === 'bar').map(({ kind }) => kind);
  expect([...kinds].sort()).toEqual(['bar', 'foot', 'foot', 'leg', 'leg']);
  expect(left.filter((body) => body.touchesFloor).every((body) => body.kind === 'foot')).toBe(true);
  const { legs, bars } = layout.racks.left;
  // From (-800, -100) along -90 degrees, 1000 mm of tube with 50 mm over at each end.
  expect(Math.hypot(legs[1].x - legs[0].x, legs[1].y - legs[0].y)).toBeCloseTo(900, 9);
  expect(legs[1].x).toBeCloseTo(-800, 9);
  expect(legs[1].y).toBeCloseTo(-1000, 9);
  expect(bars[0].pointAt(50).y).toBeCloseTo(-100, 9);
  expect(bars[0].pointAt(950).y).toBeCloseTo(-1000, 9);
});

describe('assemblies', () => {
  test('a mount is followed to its end, and a tied stand belongs to its rack', () => {
    const roots = assemblyRoots(samplePlan().setups.straight);
    const expected = {
      crash: 'left',
      tom1: 'front',
      tom2: 'front',
      splash: 'front',
      'hat-stand': 'left',
      hat: 'left',
      pedal: 'pedal',
    };
    for (const [id, root] of Object.entries(expected)) expect([id, roots.get(id)]).toEqual([id, root]);
  });
});

describe('problems are told, never thrown', () => {
  test('gear that nobody knows', () => {
    const { bodies, problems } = layoutSetup(planOf(piece('x', 'no-such-thing')), 's');
    expect(bodies).toEqual([]);
    expect(problems).toEqual([{ code: 'unknown_gear', piece: 'x', gear: 'no-such-thing' }]);
  });
  test('a clamp is no piece', () =>
    expect(layoutSetup(planOf(piece('x', 'clamp-own')), 's').problems[0].code).toBe('not_placeable'));
});

test('a drag lays out only what moved: all other bodies are the same objects', () => {
  const plan = samplePlan();
  const before = layoutSetup(plan, 'straight').bodies;
  const moved = runCommand(plan, { type: 'placePieces', setup: 'straight', places: { pedal: { xMm: 75, yMm: -150 } } });
  if (!moved.ok) throw new Error('The pedal should move.');
  const after = layoutSetup(moved.plan, 'straight').bodies;
  expect(after.length).toBe(before.length);
  after.forEach((body, k) => {
    if (body.piece === 'pedal') expect(body).not.toBe(before[k]);
    else expect(body, body.id).toBe(before[k]);
  });
});
