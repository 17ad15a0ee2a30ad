import { describe, expect, test } from 'vitest';
import { type Lifted, lift, liftReading, liftReadings } from '../../../src/checks/lift.ts';
import { bodiesByLoad, loadsOf } from '../../../src/checks/loads.ts';
import { partLoads, partsOf } from '../../../src/checks/parts.ts';
import { gearOf } from '../../../src/gear/catalogue.ts';
import { isKit } from '../../../src/layout/body.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { checkedOf, sampleOf, sampleSetups } from '../../fixtures/samplePlans.ts';

/** A load of so much, `deepMm` against the body, its hands `handsMm` up. */
const unit = (id: string, massKg: number | null, deepMm: number, handsMm: number): Lifted => ({
  id,
  name: null,
  pieces: [id],
  massKg,
  deepMm,
  handsMm,
});

test('inputs: narrow side to the body, hands at the mass centre, up on to the deck', () => {
  const reading = liftReading(unit('a', 8, 300, 500), 400);
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
  expect(liftReading(unit('a', 8, 300, 200), 0).inputs.horizontal).toBeCloseTo(40, 9);
  const deep = liftReading(unit('rack', 8, 1000, 500), 0);
  expect(deep.onePerson).toBe(0);
  expect(deep.index).toBe(Number.POSITIVE_INFINITY);
  expect(deep.twoPeople).toBeGreaterThan(20);
});

describe('findings', () => {
  const told = (...units: Lifted[]) =>
    lift(units.map((each) => liftReading(each, 0))).map(({ code, state, pieces }) => [code, state, ...pieces]);
  test('LI-2 one finding for the heaviest for its size when one person will do', () => {
    expect(told(unit('light', 3, 300, 500), unit('less', 6, 300, 500))).toEqual([['lift_alone', 'clear', 'less']]);
  });
  test('LI-1 too heavy for one, for two; what nobody weighed is left out', () => {
    expect(told(unit('two', 20, 300, 500), unit('many', 40, 300, 500), unit('unknown', null, 300, 500))).toEqual([
      ['lift_with_two', 'clear', 'two'],
      ['take_apart', 'tight', 'many'],
    ]);
    expect(told(unit('unknown', null, 300, 500))).toEqual([]);
  });

  // 0.5 m up, from floor level: V 50, D 0, so VM 0.925, DM 1, CM 0.95; two at its ends: H 25. 23 x 0.925 x 0.95 x 4/3 kg.
  const two = (4 / 3) * 23 * 0.925 * 0.95;
  test.each([
    ['within nine tenths of what two may lift', 0.89 * two, 'lift_with_two', 'clear'],
    ['beyond nine tenths', 0.91 * two, 'lift_near_two', 'tight'],
    ['just what two may lift', two - 1e-9, 'lift_near_two', 'tight'],
    ['more than two may lift', two + 1e-9, 'take_apart', 'tight'],
  ])('%s', (_, massKg, code, state) => {
    const [finding] = lift([liftReading(unit('rack', massKg, 1000, 500), 0)]);
    expect(finding).toMatchObject({ code, state, value: massKg });
    expect(finding.limit).toBeCloseTo(two, 9);
  });

  test('LI-2 a rack for two, and all others in one finding that names the heaviest for its size', () => {
    expect(told(unit('light', 3, 300, 500), unit('rack', 22, 1000, 500), unit('less', 6, 300, 500))).toEqual([
      ['lift_with_two', 'clear', 'rack'],
      ['lift_rest_alone', 'clear', 'less'],
    ]);
  });
});

test('LI-1 higher than any lift there is no limit, and never “no more than 0 kg”', () => {
  const reading = liftReading(unit('rack', 30, 300, 1000), 1000);
  expect(reading.twoPeople).toBe(0);
  const [finding] = lift([reading]);
  expect(finding).toMatchObject({ code: 'lift_too_high', state: 'unmeasured', limit: null });
});

describe('LI-3 what travels together', () => {
  const sample = sampleOf('one-up-two-down');
  const id = 'straight';
  const told = (plan: Plan) =>
    loadsOf(plan, plan.setups[id]).list.map(({ id: first, name, pieces }) => [name ?? first, ...pieces]);
  const kindOf = (plan: Plan, piece: string) => {
    const one = plan.setups[id].pieces[piece];
    return one.kind === 'rack' ? 'rack' : gearOf(plan.gear, one.gear)?.kind;
  };

  test('apart where nothing is said: each frame, drum and stand by itself, cymbals in one bag, nothing of the stage', () => {
    const loads = loadsOf(sample, sample.setups[id]).list;
    for (const { pieces } of loads) {
      const kinds = new Set(pieces.map((piece) => kindOf(sample, piece)));
      expect(kinds.size).toBe(1);
      expect(kinds).not.toContain('stageItem');
      if (!kinds.has('cymbal')) expect(pieces).toHaveLength(1);
    }
    expect(loads.filter(({ pieces }) => kindOf(sample, pieces[0]) === 'cymbal')).toHaveLength(1);
  });

  test('clamps and arms stay on the frame; every body of the kit and every part is in one load', () => {
    const loads = loadsOf(sample, sample.setups[id]);
    const layout = layoutSetup(sample, id);
    const byLoad = bodiesByLoad(loads, layout.bodies);
    expect([...byLoad.values()].flat()).toHaveLength(layout.bodies.filter(isKit).length);
    const frame = byLoad.get('rack-right')!;
    expect(frame.some(({ kind, piece }) => kind === 'arm' && piece !== 'rack-right')).toBe(true);
    expect(frame.every(({ kind, piece }) => kind === 'arm' || kind === 'link' || piece === 'rack-right')).toBe(true);
    const parts = partLoads(sample, id);
    const all = partsOf(sample, id);
    expect(parts.reduce((sum, { knownMass }) => sum + knownMass, 0)).toBeCloseTo(all.knownMass, 9);
    for (const reading of liftReadings(sample, sample.setups[id], layout))
      expect(reading.mass).toBeCloseTo(parts.find((load) => load.id === reading.id)!.knownMass, 9);
  });

  test('pieces that say the same travel together, a rack as it stands', () => {
    const set = (piece: string, load: string) => ({ type: 'setPiece', setup: id, piece, set: { load } }) as const;
    const { order, pieces } = sample.setups[id];
    const mounted = order.filter((one) => {
      const item = pieces[one];
      return item.kind === 'item' && item.mount?.carrier.on === 'bar' && item.mount.carrier.rack === 'rack-right';
    });
    const ran = runCommand(sample, {
      type: 'many',
      commands: ['rack-right', ...mounted].map((one) => set(one, 'Right rack')),
    });
    if (!ran.ok) throw new Error('It should run.');
    expect(told(ran.plan)).toContainEqual([
      'Right rack',
      ...order.filter((one) => one === 'rack-right' || mounted.includes(one)),
    ]);
    const [finding] = checkedOf(ran.plan, id).findings.filter(({ code }) => code === 'take_apart');
    expect(finding.state).toBe('tight');
    expect(findingSentence(finding, ran.plan, id)).toMatch(/^Right rack weighs/);
  });

  test.each(sampleSetups())(
    'apart, $name can be lifted; only two large frames truly take more than two',
    ({ name, plan, id: setup }) => {
      const found = checkedOf(plan, setup).findings.filter(({ check }) => check === 'lift');
      const heavy = found.filter(({ state }) => state !== 'clear').map(({ code, pieces }) => [code, ...pieces]);
      expect(heavy).toEqual(/^(five-toms|sixty-pieces)/.test(name) ? [['take_apart', 'rack']] : []);
      for (const each of found) expect(findingSentence(each, plan, setup)).not.toMatch(/more than 0 |of 0 /);
    },
  );
});
