import { describe, expect, test } from 'vitest';
import { lift, liftReadings } from '../../../src/checks/lift.ts';
import type { Assembly } from '../../../src/checks/stability.ts';
import { rectangle } from '../../../src/geometry/shapes.ts';
import type { Body } from '../../../src/layout/body.ts';

/** A box w x d mm on the floor, its mass `z` mm up. */
function unit(id: string, massKg: number, w: number, d: number, z: number, unmeasured: string[] = []): Assembly {
  const body = { shape: rectangle(0, 0, w, d, 0.3) } as Body;
  return { id, pieces: [id], bodies: [body], unmeasured, knownKg: massKg, centre: [0, 0, z], contacts: [] };
}

test('inputs: narrow side to the body, hands at the mass centre, up on to the deck', () => {
  const deck = { name: '', modules: [], heightMm: 400, ratedKPa: null, edgeMarginMm: 0 };
  const [reading] = liftReadings(deck, [unit('a', 8, 600, 300, 500)]);
  expect(reading.inputs.horizontal).toBeCloseTo(20 + 15, 9);
  expect(reading.inputs.vertical).toBe(50);
  expect(reading.inputs.travel).toBe(40);
  // LC HM VM DM CM by hand; at the start VM is 1 - 0.003 x 25, fair below 75 cm; at the end V is 90: VM 0.955, fair 1.
  const start = 23 * (25 / 35) * 0.925 * (0.82 + 4.5 / 40) * 0.95;
  expect(reading.onePerson).toBeCloseTo(start, 9);
  expect(reading.twoPeople).toBeCloseTo((4 / 3) * start * (35 / 25), 9);
  expect(reading.index).toBeCloseTo(8 / start, 9);
});

test('low hands reach farther out; too deep a unit is no lift for one', () => {
  expect(liftReadings(null, [unit('a', 8, 600, 300, 200)])[0].inputs.horizontal).toBeCloseTo(40, 9);
  const [deep] = liftReadings(null, [unit('rack', 8, 1500, 1000, 500)]);
  expect(deep.onePerson).toBe(0);
  expect(deep.index).toBe(Number.POSITIVE_INFINITY);
  expect(deep.twoPeople).toBeGreaterThan(20);
});

describe('findings', () => {
  const told = (...units: Assembly[]) =>
    lift(liftReadings(null, units)).map(({ code, state, pieces }) => [code, state, ...pieces]);
  test('LI-2 one finding for the heaviest for its size when one person will do', () => {
    expect(told(unit('light', 3, 300, 300, 500), unit('less', 6, 300, 300, 500))).toEqual([
      ['lift_alone', 'clear', 'less'],
    ]);
  });
  test('LI-1 too heavy for one, for two; what nobody weighed is left out', () => {
    expect(
      told(unit('two', 20, 300, 300, 500), unit('many', 40, 300, 300, 500), unit('unknown', 90, 300, 300, 500, ['x'])),
    ).toEqual([
      ['lift_with_two', 'clear', 'two'],
      ['take_apart', 'tight', 'many'],
    ]);
    expect(told(unit('unknown', 9, 300, 300, 500, ['x']))).toEqual([]);
  });

  // 0.5 m up, from floor level: V 50, D 0, so VM 0.925, DM 1, CM 0.95; two at its ends: H 25. 23 x 0.925 x 0.95 x 4/3 kg.
  const two = (4 / 3) * 23 * 0.925 * 0.95;
  test.each([
    ['within nine tenths of what two may lift', 0.89 * two, 'lift_with_two', 'clear'],
    ['beyond nine tenths', 0.91 * two, 'lift_near_two', 'tight'],
    ['just what two may lift', two - 1e-9, 'lift_near_two', 'tight'],
    ['more than two may lift', two + 1e-5, 'take_apart', 'tight'],
  ])('%s', (_, massKg, code, state) => {
    const [finding] = lift(liftReadings(null, [unit('rack', massKg, 1500, 1000, 500)]));
    expect(finding).toMatchObject({ code, state, value: massKg });
    expect(finding.limit).toBeCloseTo(two, 9);
  });

  test('LI-2 a rack for two, and all others in one finding that names the heaviest for its size', () => {
    expect(
      told(unit('light', 3, 300, 300, 500), unit('rack', 22, 1500, 1000, 500), unit('less', 6, 300, 300, 500)),
    ).toEqual([
      ['lift_with_two', 'clear', 'rack'],
      ['lift_rest_alone', 'clear', 'less'],
    ]);
  });
});
