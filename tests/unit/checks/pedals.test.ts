import { describe, expect, test } from 'vitest';
import { pedals } from '../../../src/checks/pedals.ts';
import { CATALOGUE } from '../../../src/gear/catalogue.ts';
import { SECOND_PEDAL } from '../../../src/gear/kinds.ts';
import type { GearOf } from '../../../src/gear/schema.ts';
import { shaftEnds } from '../../../src/layout/floorGear.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { secondPedal } from '../../../src/plan/secondPedal.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { catalogueKit as planOf } from '../../fixtures/plans.ts';
import { SAMPLE_PLANS } from '../../fixtures/samplePlans.ts';

const item = (id: string, gear: string, xMm: number, yMm: number, more: Partial<Item> = {}): Item => ({
  kind: 'item',
  id,
  name: id,
  gear,
  place: { xMm, yMm, headingDeg: 0 },
  mount: null,
  ...more,
});
const found = (plan: Plan) => pedals(plan.setups[plan.order[0]], layoutSetup(plan, plan.order[0]).bodies);
/** The drum's batter hoop is at y = 203.2; a pedal of 300 mm stands behind it. */
const drum = item('drum', 'bass-22x16', 0, 0);
const pedal = (yMm: number) => item('pedal', 'pedal-single', 0, yMm);

describe('a pedal and its drum', () => {
  test('PE-1 400 mm from its drum it is noticed, with the distance', () => {
    const plan = planOf(drum, pedal(203.2 + 150 + 400));
    expect(found(plan)).toEqual([
      expect.objectContaining({ code: 'pedal_off_drum', state: 'blocked', pieces: ['pedal', 'drum'] }),
    ]);
    expect(found(plan)[0].value).toBeCloseTo(400, 6);
    expect(findingSentence(found(plan)[0], plan, plan.order[0])).toMatch(
      /^pedal is 400 mm from the hoop of drum: bring/,
    );
    expect(found(planOf(drum, pedal(203.2 + 150 + 59)))).toEqual([]);
    // Without a bass drum nothing says what it plays.
    expect(found(planOf(pedal(900)))).toEqual([]);
  });

  test('PE-2 a drive shaft through the drum that its pedal plays is noticed', () => {
    const double = (second: Item['second']) => planOf(drum, item('pedal', 'pedal-double', 0, 203.2 + 150, { second }));
    expect(found(double(undefined))).toEqual([]);
    // The second pedal turned round beside the drum: its shaft crosses the shell.
    const through = double({ xMm: 480, yMm: -260, headingDeg: 0 });
    expect(found(through)).toEqual([
      expect.objectContaining({ code: 'shaft_through_drum', state: 'blocked', pieces: ['pedal', 'drum'] }),
    ]);
    const said = findingSentence(found(through)[0], through, through.order[0]);
    expect(said).toMatch(/^The drive shaft of pedal runs through drum/);
  });

  test('the samples’ pedals are where they belong', () => {
    for (const { plan } of SAMPLE_PLANS)
      for (const id of plan.order) expect(pedals(plan.setups[id], layoutSetup(plan, id).bodies)).toEqual([]);
  });
});

describe('the second pedal', () => {
  const at = (...pieces: Item[]) => {
    const main = item('pedal', 'pedal-double', 0, 350);
    const plan = planOf(main, ...pieces);
    return secondPedal(plan, plan.setups[plan.order[0]], main);
  };

  test('goes to the foot that plays the hi-hat, to the throne without one, else to the left', () => {
    const { xMm, yMm, headingDeg } = SECOND_PEDAL;
    const left = { xMm, yMm, headingDeg };
    const right = { xMm: -xMm, yMm, headingDeg: -headingDeg };
    expect(at(item('hats', 'stand-hi-hat-tripod', 600, 700))).toEqual(left);
    expect(at(item('hats', 'stand-hi-hat-tripod', -600, 700))).toEqual(right);
    expect(at(item('throne', 'throne-round', -200, 900))).toEqual(right);
    expect(at(item('throne', 'throne-round', -200, 900), item('hats', 'hi-hats-14', 600, 700))).toEqual(left);
    expect(at(item('throne', 'throne-round', -20, 900))).toEqual(left);
    expect(at()).toEqual(left);
  });

  test('its place by default is what the shaft of every double pedal spans, its toe turned out', () => {
    for (const gear of CATALOGUE) {
      if (gear.kind !== 'pedal' || !gear.shaft) continue;
      const [x0, y0, x1, y1] = shaftEnds(gear as GearOf<'pedal'>, item('pedal', gear.id, 0, 0));
      const [low, high] = gear.shaft.lengthMm;
      expect(Math.hypot(x1 - x0, y1 - y0)).toBeGreaterThan(low);
      expect(Math.hypot(x1 - x0, y1 - y0)).toBeLessThan(high);
    }
    // Facing the audience, a toe turned out to stage left is turned counter-clockwise.
    expect(Math.sign(SECOND_PEDAL.headingDeg)).toBe(Math.sign(SECOND_PEDAL.xMm));
  });

  test('left where it is by default, it changes sides with the kit, and back', () => {
    const plan = planOf(item('pedal', 'pedal-double', 0, 350));
    const [id] = plan.order;
    const bodies = (of: Plan) => layoutSetup(of, id).bodies.map(({ part, shape: { core } }) => [part, core]);
    const mirror = (of: Plan) => {
      const ran = runCommand(of, { type: 'mirrorSetup', setup: id, axisXMm: 0 });
      if (!ran.ok) throw new Error('refused');
      return ran.plan;
    };
    const once = mirror(plan);
    expect((once.setups[id].pieces.pedal as Item).second).toEqual({
      ...SECOND_PEDAL,
      xMm: -SECOND_PEDAL.xMm,
      headingDeg: -SECOND_PEDAL.headingDeg,
    });
    expect(mirror(once)).toEqual(plan);
    expect(bodies(mirror(once))).toEqual(bodies(plan));
  });
});

test('a floor tom on a mount leaves its legs’ mass at home', () => {
  const tom = CATALOGUE.find(({ id }) => id === 'floor-tom-16x16') as GearOf<'drum'>;
  const on = { carrier: { on: 'piece' as const, piece: 'drum' }, clamp: null, arm: 'l-arm' };
  const massOf = (mounted: boolean) => {
    const plan = planOf(drum, item('tom', tom.id, 0, 600, { mount: mounted ? on : null }));
    const shell = layoutSetup(plan, plan.order[0]).bodies.find(
      ({ piece, part }) => piece === 'tom' && part === 'shell',
    );
    return shell?.massKg;
  };
  expect(massOf(false)).toBe(tom.massKg);
  expect(massOf(true)).toBeCloseTo(tom.massKg! - tom.legs!.massKg!, 12);
});
