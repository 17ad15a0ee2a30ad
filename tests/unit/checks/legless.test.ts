/** LS-1 to LS-3: what a legless stand frees and costs, by hand and against both setups laid out whole. */
import { describe, expect, test } from 'vitest';
import { differences } from '../../../src/checks/differences.ts';
import { mountReadings } from '../../../src/checks/mountReach.ts';
import { feetOf, readingsOf, standingArea } from '../../../src/checks/readings.ts';
import { runChecks } from '../../../src/checks/run.ts';
import type { Gear } from '../../../src/gear/schema.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan, Setup, Tie } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { item, rack, samplePlan } from '../../fixtures/plans.ts';

const snare = (id: string, form: 'none' | 'foot' | 'tripod', massKg: number | null): Gear => ({
  kind: 'stand',
  id,
  name: `Snare stand ${form}`,
  massKg,
  use: 'snare',
  base: { form, radiusMm: form === 'tripod' ? 250 : 60, legDiameterMm: 20 },
  tubeDiameterMm: 25,
  heightMm: [400, 600],
});

const TIE: Tie = {
  carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 },
  link: 'link-1',
  clamp: 'clamp-own',
  heightMm: 400,
};

/** The stand at (x, y), the left rack's bar lies along x = -800 from y = -50 to -1050, 700 high. */
function planWith(gear: string, ties: Tie[] | undefined, other: string | null, xMm = -600, yMm = -500): Plan {
  const plan = samplePlan();
  for (const each of [snare('bare', 'none', 2), snare('footed', 'foot', 2.2), snare('legs', 'tripod', 3.5)])
    plan.gear[each.id] = each;
  const stand = (id: string, tied: Tie[] | undefined): Item => ({
    ...item('stand', 'Snare stand', id, xMm, yMm),
    ties: tied,
  });
  const left = rack('left', 'Left rack', -800, -100, -90);
  const setup = (id: string, of: Item): Setup => ({
    id,
    name: `Setup ${id}`,
    riser: null,
    pieces: { left, stand: of },
    order: ['left', 'stand'],
  });
  plan.setups = { one: setup('one', stand(gear, ties)) };
  plan.order = ['one'];
  if (other !== null) {
    plan.setups.two = setup('two', stand(other, undefined));
    plan.order.push('two');
  }
  return plan;
}

function told(plan: Plan, id = 'one') {
  const found = runChecks(plan, id, layoutSetup(plan, id)).findings.filter((each) => each.check === 'legless');
  expect(found.length).toBe(1);
  return { finding: found[0], sentence: findingSentence(found[0], plan, id) };
}

/** 20 mm strips 250 mm out of a 25 mm tube, each with a tip of 24 mm at its end: m2. */
function tripodByHand(): number {
  const [h, tube, tip, out] = [10, 12.5, 12, 250];
  const lens = (q: number) => h * Math.sqrt(q * q - h * h) + q * q * Math.asin(h / q);
  return (Math.PI * tube ** 2 + 3 * (2 * h * out - lens(tube) + Math.PI * tip ** 2 - lens(tip))) / 1e6;
}

describe('LS-1 what it frees and costs', () => {
  test('a stand clear of everything else frees its legs and its tube, by hand', () => {
    const { finding } = told(planWith('bare', [TIE], 'legs', -400, -500));
    expect(finding.value).toBeCloseTo(tripodByHand(), 12);
    expect(finding.trade).toMatchObject({ feet: 3, links: 1, clamps: 1, against: 'legs', setup: 'two' });
    expect(finding.trade.partsMass).toBeCloseTo(0.6 + 0.5, 12);
    expect(finding.trade.moreMass).toBeCloseTo(1.1 + 2 - 3.5, 12);
  });

  test.each([-790, -700, -600, -400, 300])('as both setups laid out whole say, stand at x = %s', (xMm) => {
    // At -790 the legs cross the rack's upright and T-foot: what they share is not freed.
    for (const [gear, yMm] of [
      ['bare', -130],
      ['footed', -500],
    ] as const) {
      const plan = planWith(gear, [TIE], 'legs', xMm, yMm);
      const { finding } = told(plan);
      const [one, two] = ['one', 'two'].map((id) => layoutSetup(plan, id));
      expect(finding.trade.floor).toBeCloseTo((standingArea(two) ?? 0) - (standingArea(one) ?? 0), 11);
      const hulls = [one, two].map((layout) => readingsOf(layout).floorHullArea ?? 0);
      expect(finding.trade.hull).toBeCloseTo(hulls[1] - hulls[0], 11);
      expect(finding.trade.feet).toBe(feetOf(two.bodies) - feetOf(one.bodies));
      expect(finding.trade.feet).toBe(gear === 'bare' ? 3 : 2);
    }
  });

  test('a rack moved or a stand re-measured gives the answer anew', () => {
    const plan = planWith('bare', [TIE], 'legs', -790, -130);
    const first = told(plan).finding.value as number;
    expect(told(plan).finding.value).toBe(first);
    const far = runCommand(plan, {
      type: 'placePieces',
      setup: 'one',
      places: { left: { xMm: -2000, yMm: -100, headingDeg: -90 } },
    });
    if (!far.ok) throw new Error(far.refusal.code);
    expect(told(far.plan).finding.value).toBeCloseTo(tripodByHand(), 12);
    expect(first).toBeLessThan(tripodByHand());
    const thick = { ...plan, gear: { ...plan.gear, legs: { ...snare('legs', 'tripod', 3.5), tubeDiameterMm: 60 } } };
    expect(told(thick as Plan).finding.value).toBeGreaterThan(first);
  });
});

describe('LS-2 what it is held against', () => {
  test('the same stand on legs in another setup, named', () => {
    const { sentence, finding } = told(planWith('bare', [TIE], 'legs'));
    expect(finding.source).toBe('the same stand in another setup');
    expect(sentence).toMatch(
      /^Snare stand stands without legs\. Against "Snare stand tripod", as it stands in "Setup two", it frees the circle that its legs take, 524 mm across, .*has 3 feet fewer on the deck, and costs 1 link and 1 clamp, 1\.1 kg; with the stand that is 0\.4 kg lighter\.$/,
    );
  });
  test("else the catalogue's tripod stand of that use", () => {
    for (const other of [null, 'bare']) {
      const { finding, sentence } = told(planWith('bare', [TIE], other));
      expect(finding.trade).toMatchObject({ against: 'stand-snare', setup: null });
      expect(sentence).toContain('Against "Snare stand", it frees');
    }
  });
  test('a link that nobody weighed leaves the mass open', () => {
    const plan = planWith('bare', [TIE], 'legs');
    plan.gear['link-1'].massKg = null;
    const { finding, sentence } = told(plan);
    expect(finding.trade).toMatchObject({ partsMass: null, moreMass: null });
    expect(sentence).toContain('1 link and 1 clamp, not all of them weighed.');
  });
  test('in inches', () => {
    const { sentence } = told({ ...planWith('bare', [TIE], 'legs'), units: 'in' });
    expect(sentence).toMatch(/take, 20 5\/8" across.*2\.4 lb/);
    expect(sentence).not.toMatch(/cm²|m²|kg|mm/);
  });
});

describe('LS-4 what a drummer sees of it', () => {
  test('the circle, and the room beside the pedal that its legs would crowd most', () => {
    const plan = planWith('bare', [TIE], 'legs', -400, -500);
    // A pedal's plate is 200 wide: its edge is 300 mm to the stage left of the tube, beyond a leg's tip at 250 and 12 more.
    const pedal = item('pedal', 'Pedal', 'double-pedal', -400, -1000);
    const { setups } = plan;
    for (const id of plan.order) {
      setups[id].pieces.pedal = pedal;
      setups[id].order.push('pedal');
    }
    const { finding, sentence } = told(plan);
    expect(finding.trade.circle).toBe(2 * (250 + 10 + 2));
    const room = finding.trade.room!;
    expect(room.piece).toBe('pedal');
    // One leg points downstage, at the pedal: its tip ends at -500 - 250 - 12; the tube's edge at -512.5. The board ends at -845.
    expect(room.before).toBeCloseTo(-762 - -845, 6);
    expect(room.now).toBeCloseTo(-512.5 - -845, 6);
    expect(sentence).toContain('leaves 332.5 mm beside Pedal instead of 83 mm');
    expect(sentence).not.toMatch(/cm²/);
  });

  test('with nothing near, nobody is told of any room', () => {
    expect(told(planWith('bare', [TIE], 'legs', 3000, 3000)).finding.trade.room).toBeNull();
  });
});

describe('LS-5 its tip', () => {
  const stand = (gear: string, tip?: 'floor' | 'hangs') => {
    const plan = planWith(gear, [TIE], null);
    const made = { ...plan.setups.one.pieces.stand, tip } as Item;
    plan.setups.one.pieces.stand = made;
    const layout = layoutSetup(plan, 'one');
    const { rig } = runChecks(plan, 'one', layout);
    return {
      contacts: layout.bodies.filter(({ piece, touchesFloor }) => piece === 'stand' && touchesFloor).length,
      from: Math.min(
        ...layout.bodies.filter(({ piece, kind }) => piece === 'stand' && kind === 'stand').map(({ z0 }) => z0),
      ),
      load: rig.loads.bars.find(({ bar, piece }) => piece === 'left' && bar === 'b1')!.load,
      deck: rig.deckLoad.mass,
    };
  };

  test('on the floor it rests there and the bar carries nothing of it; hanging, the bar carries all', () => {
    for (const gear of ['bare', 'footed']) {
      const mass = gear === 'bare' ? 2 : 2.2;
      const [floor, hangs] = [stand(gear, 'floor'), stand(gear, 'hangs')];
      expect([floor.contacts, floor.from, floor.load], gear).toEqual([1, 0, 0]);
      expect([hangs.contacts, hangs.from], gear).toEqual([0, 60]);
      // The stand, its link and its clamp.
      expect(hangs.load, gear).toBeCloseTo(mass + 0.6 + 0.5, 9);
      expect(hangs.deck).toBeCloseTo(floor.deck!, 9);
    }
  });

  test('left out: one with a foot rests on it, one without hangs', () => {
    expect(stand('bare')).toEqual(stand('bare', 'hangs'));
    expect(stand('footed')).toEqual(stand('footed', 'floor'));
  });
});

describe('LS-3 states', () => {
  test('a link that reaches: clear', () =>
    expect(told(planWith('bare', [TIE], 'legs')).finding).toMatchObject({ state: 'clear', code: 'legless_frees' }));
  test('none that reaches: blocked', () =>
    expect(told(planWith('bare', [TIE], 'legs', 900)).finding).toMatchObject({
      state: 'blocked',
      code: 'legless_loose',
    }));
  test('one brace that misses is one finding, with what it misses by', () => {
    const plan = planWith('bare', [TIE], 'legs', 900);
    const { findings } = runChecks(plan, 'one', layoutSetup(plan, 'one'));
    expect(findings.filter(({ code }) => code === 'link_misses')).toEqual([]);
    const { finding, sentence } = told(plan);
    const [missed] = mountReadings(plan, layoutSetup(plan, 'one').mounts).filter(({ holds }) => holds === 'tie');
    expect(finding).toMatchObject({ link: missed.arm, missingMm: -missed.left, tooLong: false });
    expect(sentence).toMatch(/ has no legs, and .* that ties it is .* short: /);
  });
  test('nothing ties it: unmeasured, and it still says what it would free', () => {
    const { finding, sentence } = told(planWith('footed', undefined, 'legs'));
    expect(finding).toMatchObject({ state: 'unmeasured', code: 'legless_untied', trade: { links: 0, clamps: 0 } });
    expect(sentence).toMatch(/nothing ties it: link it to a rack\. Against .* so far\.$/);
  });
  test('a stand on legs: nothing to say', () => {
    const plan = planWith('bare', [TIE], 'legs');
    expect(
      runChecks(plan, 'two', layoutSetup(plan, 'two')).findings.filter(({ check }) => check === 'legless'),
    ).toEqual([]);
  });
});

test('LS-1 the differences of two setups carry the feet before and after', () => {
  const plan = planWith('bare', [TIE], 'legs');
  const [from, to] = ['two', 'one'].map((id) => ({ ...readingsOf(layoutSetup(plan, id)) }));
  const { readings } = differences(plan, 'two', 'one', { from, to });
  // Two T-feet, and the tripod's three tips.
  expect(readings.find(({ name }) => name === 'feetOnFloor')).toEqual({ name: 'feetOnFloor', before: 5, after: 2 });
});
