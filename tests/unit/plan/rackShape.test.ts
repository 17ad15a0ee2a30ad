import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CATALOGUE, gearOf } from '../../../src/gear/catalogue.ts';
import { bendCommand, bendToOffer, counterpartTube } from '../../../src/plan/commands/rackShape.ts';
import { rackFrame } from '../../../src/plan/rackFrame.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Bend, Plan, Rack } from '../../../src/plan/schema.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { runs } from '../../fixtures/seeds.ts';
import { expectLaws, expectRefusal } from './laws.ts';

const plan = samplePlan();
const setup = 'straight';
const rackOf = (from: Plan, id: string) => from.setups.straight.pieces[id] as Rack;
const legsOf = (from: Plan, id: string) => rackFrame(rackOf(from, id)).legs;
const bend = (side: Bend['side'], radiusMm = 800): Bend => ({ radiusMm, straightEndsMm: 0, side });

/** The turn from one heading to another, in degrees within half a turn, rounded to 1e-7. */
const turned = (from: number, to: number) => {
  const degrees = ((to - from) * 180) / Math.PI;
  return Math.round((degrees - 360 * Math.round(degrees / 360)) * 1e7) / 1e7;
};

describe('bendRack', () => {
  test('RK-11 every bar is bent, cut lengths, overhangs and clamps stay, and so do the first leg and the heading', () => {
    const after = expectLaws(plan, { type: 'bendRack', setup, rack: 'front', bend: bend('right') });
    const [before, now] = [rackOf(plan, 'front'), rackOf(after, 'front')];
    for (const [s, span] of now.spans.entries())
      for (const [b, one] of span.bars.entries())
        expect(one).toEqual({ ...before.spans[s].bars[b], bend: bend('right') });
    expect(now.place).toEqual(before.place);
    expect(after.setups.straight.pieces.tom1).toBe(plan.setups.straight.pieces.tom1);
  });
  test('RK-11 the legs come nearer by what the bend takes: 900 mm along a radius of 800', () => {
    const after = expectLaws(plan, { type: 'bendRack', setup, rack: 'left', bend: bend('left') });
    const [a, b] = legsOf(after, 'left');
    // The chord of an arc: 2 R sin(length / 2R). Straight down the page, as before.
    expect(b.x).toBeCloseTo(a.x, 9);
    expect(a.y - b.y).toBeCloseTo(1600 * Math.sin(900 / 1600), 9);
  });
  test('RK-12 straight again, and the plan is as it was', () => {
    for (const rack of ['left', 'front']) {
      const bent = expectLaws(plan, { type: 'bendRack', setup, rack, bend: bend('left') });
      expect(expectLaws(bent, { type: 'bendRack', setup, rack, bend: null })).toEqual(plan);
    }
  });
  test('a bend that no bar of that length takes is refused', () => {
    expectRefusal(
      plan,
      { type: 'bendRack', setup, rack: 'left', bend: bend('left', 150) },
      'breaks_plan',
      /bent to a radius of 150 mm would go round more than once/,
    );
    expectRefusal(
      plan,
      { type: 'bendRack', setup, rack: 'left', bend: { ...bend('left'), straightEndsMm: 600 } },
      'breaks_plan',
      /straight ends/,
    );
    expectRefusal(plan, { type: 'bendRack', setup, rack: 'crash', bend: null }, 'not_a_rack', /not a rack/);
  });
});

describe('bendToOffer', () => {
  test('a bar of the rack first, then the tube, then a sixth of a turn of the longest bar', () => {
    // The longest is 1100: 1100 / (pi / 3) = 1050.4, to 10 mm.
    expect(bendToOffer(plan, rackOf(plan, 'front'), 'left')).toEqual({
      bend: { radiusMm: 1050, straightEndsMm: 0, side: 'left' },
      from: 'usual',
    });
    const tube = { ...plan.gear['tube-bar'], bendRadiusMm: 700, straightEndsMm: 90 };
    const curved = expectLaws(plan, { type: 'setGear', gear: tube as Plan['gear'][string] });
    expect(bendToOffer(curved, rackOf(curved, 'front'), 'right')).toEqual({
      bend: { radiusMm: 700, straightEndsMm: 90, side: 'right' },
      from: 'tube',
    });
    const bent = expectLaws(curved, { type: 'bendRack', setup, rack: 'front', bend: bend('left', 900) });
    expect(bendToOffer(bent, rackOf(bent, 'front'), 'right')).toEqual({ bend: bend('right', 900), from: 'bar' });
  });
  test('what it offers can be had', () => {
    for (const rack of ['left', 'front'])
      expectLaws(plan, { type: 'bendRack', setup, rack, bend: bendToOffer(plan, rackOf(plan, rack), 'left').bend });
  });
});

describe('bendCommand', () => {
  const gear = (id: string, more: object) => ({ ...plan.gear['tube-bar'], id, ...more }) as Plan['gear'][string];
  const stocked: Plan = {
    ...plan,
    gear: {
      ...plan.gear,
      // The first differs in one thing, and is not taken.
      'bent-thick': gear('bent-thick', { wallMm: 3, bendRadiusMm: 500 }),
      'tube-bent': gear('tube-bent', { bendRadiusMm: 650, straightEndsMm: 80 }),
    },
  };
  test('RK-17 with a curved tube of the same section and length in stock, the bars become that tube, and back', () => {
    const bentBy = bendCommand(stocked, setup, rackOf(stocked, 'front'), 'left');
    expect(bentBy).toEqual({
      type: 'bendRack',
      setup,
      rack: 'front',
      bend: { radiusMm: 650, straightEndsMm: 80, side: 'left' },
      tubes: { b1: 'tube-bent', b2: 'tube-bent', b3: 'tube-bent' },
    });
    const bent = expectLaws(stocked, bentBy);
    expect(rackOf(bent, 'front').spans[1].bars[0].tube).toBe('tube-bent');
    expect(expectLaws(bent, bendCommand(bent, setup, rackOf(bent, 'front'), null))).toEqual(stocked);
  });
  test('RK-17 without one, the tube stays what it is', () => {
    expect(bendCommand(plan, setup, rackOf(plan, 'left'), bend('right'))).toEqual({
      type: 'bendRack',
      setup,
      rack: 'left',
      bend: bend('right'),
    });
  });
  test('the catalogue’s straight bars have curved counterparts that fit them', () => {
    const bars = CATALOGUE.flatMap((each) =>
      each.kind === 'tube' && each.use === 'bar' && each.bendRadiusMm === undefined ? [each] : [],
    );
    const pairs = bars
      .map((each) => [each, gearOf({}, counterpartTube(plan, each.id, true))] as const)
      .filter(([a, b]) => a.id !== b?.id);
    expect(pairs.length).toBeGreaterThan(3);
    for (const [straight, curved] of pairs) {
      expect(curved).toMatchObject({
        kind: 'tube',
        cutLengthMm: straight.cutLengthMm,
        outsideMm: straight.outsideMm,
        wallMm: straight.wallMm,
        bendRadiusMm: expect.any(Number),
      });
      expect(counterpartTube(plan, curved!.id, false)).toBe(straight.id);
    }
  });
  test('a tube for a bar that is not there is refused', () => {
    expectRefusal(
      plan,
      { type: 'bendRack', setup, rack: 'left', bend: null, tubes: { b7: 'tube-bar' } },
      'unknown',
      /no bar "b7"/,
    );
  });
});

describe('turnRackLeg', () => {
  const turn = (rack: string, leg: string, xMm: number, yMm: number) =>
    ({ type: 'turnRackLeg', setup, rack, leg, xMm, yMm }) as const;

  test('RK-13 the second of two legs turns about the first: dragged to the right of it, it stands 900 to its right', () => {
    const after = expectLaws(plan, turn('left', 'l2', 200, -100));
    const [a, b] = legsOf(after, 'left');
    expect([a.x, a.y]).toEqual([-800, -100]);
    expect(b.x).toBeCloseTo(100, 6);
    expect(b.y).toBeCloseTo(-100, 6);
    expect(rackOf(after, 'left').place.headingDeg).toBe(0);
  });
  test('RK-13 the first of two turns about the second', () => {
    // The second stands at (-800, -1000); pulled to its right, the first stands at (100, -1000), heading 180.
    const after = expectLaws(plan, turn('left', 'l1', -700, -1000));
    const [a, b] = legsOf(after, 'left');
    expect(a.x).toBeCloseTo(100, 6);
    expect(a.y).toBeCloseTo(-1000, 6);
    expect(b.x).toBeCloseTo(-800, 6);
    expect(b.y).toBeCloseTo(-1000, 6);
    expect(rackOf(after, 'left').place.headingDeg).toBe(180);
  });
  test('RK-14 the last leg of a chain turns its span and its own foot; all else stays', () => {
    const before = legsOf(plan, 'front');
    const after = expectLaws(plan, turn('front', 'l3', before[1].x, before[1].y + 10));
    const now = legsOf(after, 'front');
    for (const i of [0, 1]) expect(now[i]).toEqual(before[i]);
    expect(now[2].x).toBeCloseTo(before[1].x, 5);
    expect(now[2].y).toBeCloseTo(before[1].y + 690, 5);
    // Its span headed 10 - 40 degrees, and now heads 90: the foot turns by 120.
    expect(turned(before[2].headingRad, now[2].headingRad)).toBe(120);
  });
  test('RK-15 the first leg of a chain turns the first span; the others and their feet stay', () => {
    const before = legsOf(plan, 'front');
    const after = expectLaws(plan, turn('front', 'l1', before[1].x - 300, before[1].y));
    const now = legsOf(after, 'front');
    expect(now[0].x).toBeCloseTo(before[1].x - 900, 5);
    expect(now[0].y).toBeCloseTo(before[1].y, 5);
    for (const i of [1, 2]) {
      expect(now[i].x).toBeCloseTo(before[i].x, 5);
      expect(now[i].y).toBeCloseTo(before[i].y, 5);
      expect(turned(before[i].headingRad, now[i].headingRad)).toBeCloseTo(0, 6);
    }
    // The heading went from 10 to 0, and the foot of the leg that moved with it.
    expect(turned(before[0].headingRad, now[0].headingRad)).toBe(-10);
  });
  test('RK-16 an inner leg turns the whole rack about its first leg', () => {
    const before = legsOf(plan, 'front');
    const after = expectLaws(plan, turn('front', 'l2', before[0].x, before[0].y + 50));
    const now = legsOf(after, 'front');
    expect(now[0].x).toBe(before[0].x);
    expect(now[1].y - now[0].y).toBeCloseTo(900, 6);
    expect(rackOf(after, 'front').spans).toEqual(rackOf(plan, 'front').spans);
    expect(turned(before[2].headingRad, now[2].headingRad)).toBe(80);
  });
  test('laws: no tube is stretched, the leg lies in the pull’s direction, and the same drag twice is one drag', () => {
    const far = fc.double({ min: -3000, max: 3000, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom(['left', 'l1'], ['left', 'l2'], ['front', 'l1'], ['front', 'l2'], ['front', 'l3']),
        fc.boolean(),
        far,
        far,
        ([rack, leg], bent, x, y) => {
          const ran = bent
            ? runCommand(plan, { type: 'bendRack', setup, rack, bend: bend('left') })
            : { ok: true as const, plan };
          if (!ran.ok) throw new Error('not bent');
          const start = ran.plan;
          const once = runCommand(start, turn(rack, leg, x, y));
          fc.pre(once.ok);
          if (!once.ok) return;
          const [from, to] = [rackFrame(rackOf(start, rack)), rackFrame(rackOf(once.plan, rack))];
          for (const [i, chord] of from.chords.entries()) expect(to.chords[i]).toBeCloseTo(chord, 6);
          const index = to.legs.findIndex((each) => each.id === leg);
          const pivots = to.legs.map((_, i) => i).filter((i) => i !== index);
          const lies = (i: number) => {
            const [px, py] = [to.legs[i].x, to.legs[i].y];
            const off = (x - px) * (to.legs[index].y - py) - (y - py) * (to.legs[index].x - px);
            const along = (x - px) * (to.legs[index].x - px) + (y - py) * (to.legs[index].y - py);
            return along > 0 && Math.abs(off) / Math.hypot(x - px, y - py) < 1e-3;
          };
          expect(pivots.some(lies)).toBe(true);
          const twice = runCommand(once.plan, turn(rack, leg, x, y));
          if (!twice.ok) throw new Error('refused the second time');
          for (const [i, each] of rackFrame(rackOf(twice.plan, rack)).legs.entries()) {
            expect(each.x).toBeCloseTo(to.legs[i].x, 4);
            expect(each.y).toBeCloseTo(to.legs[i].y, 4);
          }
        },
      ),
      runs(150, 30),
    );
  }, 30_000);
  test('refusals', () => {
    expectRefusal(plan, turn('left', 'l2', -800, -100.5), 'no_direction', /leg which "Left rack" turns about/);
    expectRefusal(plan, turn('left', 'l9', 0, 0), 'unknown', /no leg "l9"/);
    expectRefusal(plan, turn('left', 'l2', Number.NaN, 0), 'no_direction', /drag farther/);
    expectRefusal(plan, turn('crash', 'l2', 0, 0), 'not_a_rack', /not a rack/);
  });
});
