import { describe, expect, test } from 'vitest';
import type { AddLeg } from '../../../src/plan/commands/rackParts.ts';
import { type RackFrame, rackFrame } from '../../../src/plan/rackFrame.ts';
import type { Item, Plan, Rack } from '../../../src/plan/schema.ts';
import { bar, chain, leg, samplePlan } from '../../fixtures/plans.ts';
import { expectLaws, expectRefusal } from './laws.ts';

const plan = samplePlan();
const setup = 'straight';
const rackOf = (from: Plan, id: string) => from.setups.straight.pieces[id] as Rack;
const frameOf = (from: Plan, id: string) => rackFrame(rackOf(from, id));
const mountOf = (from: Plan, id: string) => (from.setups.straight.pieces[id] as Item).mount;

/** Legs by id stand, and their feet point, where they did. mm, radians; 1e-5 is a hundredth of a micrometre. */
function expectSameLegs(after: RackFrame, before: RackFrame, ids: string[]): void {
  for (const id of ids) {
    const now = after.legs.find((each) => each.id === id)!;
    const then = before.legs.find((each) => each.id === id)!;
    expect(now.x, id).toBeCloseTo(then.x, 5);
    expect(now.y, id).toBeCloseTo(then.y, 5);
    expect(Math.cos(now.headingRad - then.headingRad), id).toBeCloseTo(1, 9);
  }
}

describe('setBar, setLeg, setSpan', () => {
  test('RK-1 a longer tube puts the other leg farther; the first leg stays', () => {
    const after = expectLaws(plan, {
      type: 'setBar',
      setup,
      rack: 'left',
      bar: 'b1',
      set: { cutLengthMm: 1200, heightMm: 650 },
    });
    const { legs } = frameOf(after, 'left');
    // Heading -90: from (-800, -100) downstage by 1200 - 50 - 50.
    expect([legs[0].x, legs[0].y, legs[1].x, legs[1].y].map((v) => Math.round(v * 1e6) / 1e6)).toEqual([
      -800, -100, -800, -1200,
    ]);
    expect(rackOf(after, 'left').spans[0].bars[0].heightMm).toBe(650);
  });
  test('RK-2 a tube too short for a clamp on it is refused, and says which', () => {
    expectRefusal(
      plan,
      { type: 'setBar', setup, rack: 'left', bar: 'b1', set: { cutLengthMm: 399 } },
      'breaks_plan',
      /^Setup "Straight racks", piece "Left crash": its clamp is 400 mm along bar "b1" of "Left rack", off the end of that tube, which is 399 mm long\.$/,
    );
  });
  test('an overhang as long as the tube, a bar over its leg, a tube that is a foot', () => {
    const set = (fields: object) => ({ type: 'setBar', setup, rack: 'left', bar: 'b1', set: fields }) as const;
    expectRefusal(plan, set({ overhangMm: 950 }), 'breaks_plan', /leave no distance/);
    expectRefusal(plan, set({ heightMm: 901 }), 'breaks_plan', /passes over leg 1/);
    expectRefusal(plan, set({ tube: 'foot-t' }), 'breaks_plan', /is a foot, where a tube is needed/);
    expectRefusal(plan, set({}), 'nothing_asked', /Nothing/);
    expectRefusal(plan, { ...set({ heightMm: 1 }), bar: 'b9' }, 'unknown', /^"Left rack" has no bar "b9"\.$/);
    expectRefusal(plan, { ...set({ heightMm: 1 }), rack: 'crash' }, 'not_a_rack', /^"Left crash" is not a rack\.$/);
  });
  test('RK-3 an upright and its foot; null takes the foot off', () => {
    const after = expectLaws(plan, {
      type: 'setLeg',
      setup,
      rack: 'left',
      leg: 'l2',
      set: { lengthMm: 1100, foot: null },
    });
    expect(rackOf(after, 'left').legs[1]).toEqual({ ...leg('l2'), lengthMm: 1100, foot: null });
    expectRefusal(
      plan,
      { type: 'setLeg', setup, rack: 'left', leg: 'l2', set: { lengthMm: 600 } },
      'breaks_plan',
      /passes over leg 2, which ends at 600 mm/,
    );
    expectRefusal(
      plan,
      { type: 'setLeg', setup, rack: 'left', leg: 'l9', set: { lengthMm: 600 } },
      'unknown',
      /no leg "l9"/,
    );
    expectRefusal(plan, { type: 'setLeg', setup, rack: 'left', leg: 'l1', set: {} }, 'nothing_asked', /Nothing/);
  });
  test('RK-4 a joint angle and a far overhang', () => {
    const after = expectLaws(plan, {
      type: 'setSpan',
      setup,
      rack: 'front',
      span: 1,
      set: { turnDeg: 0, farOverhangMm: 100 },
    });
    const { legs } = frameOf(after, 'front');
    // Both spans in one line: 900 and then 800 - 50 - 100.
    expect(Math.hypot(legs[2].x - legs[0].x, legs[2].y - legs[0].y)).toBeCloseTo(900 + 650, 9);
    expectRefusal(
      plan,
      { type: 'setSpan', setup, rack: 'front', span: 2, set: { turnDeg: 0 } },
      'unknown',
      /no span "3"/,
    );
    expectRefusal(
      plan,
      { type: 'setSpan', setup, rack: 'front', span: 0, set: { turnDeg: 1 } },
      'breaks_plan',
      /must be 0/,
    );
    expectRefusal(plan, { type: 'setSpan', setup, rack: 'front', span: 0, set: {} }, 'nothing_asked', /Nothing/);
  });
  test('RK-5 a locked rack keeps its parts', () => {
    const locked = expectLaws(plan, { type: 'setPiece', setup, piece: 'left', set: { locked: true } });
    expectRefusal(
      locked,
      { type: 'setBar', setup, rack: 'left', bar: 'b1', set: { heightMm: 1 } },
      'piece_locked',
      /"Left rack" is locked/,
    );
    expectRefusal(
      locked,
      { type: 'setLeg', setup, rack: 'left', leg: 'l1', set: { foot: null } },
      'piece_locked',
      /locked/,
    );
    expectRefusal(locked, { type: 'bendRack', setup, rack: 'left', bend: null }, 'piece_locked', /locked/);
  });
});

describe('addLeg and removeLeg', () => {
  const span = { turnDeg: 30, farOverhangMm: 40, bars: [bar('b9', 640)] };
  test('RK-6 at the end: the others stay, the new leg at the joint angle', () => {
    const after = expectLaws(plan, { type: 'addLeg', setup, rack: 'left', at: 'end', leg: leg('l9'), span });
    const frame = frameOf(after, 'left');
    expectSameLegs(frame, frameOf(plan, 'left'), ['l1', 'l2']);
    // From (-800, -1000), heading -90 + 30, 640 - 50 - 40 = 550 on.
    expect(frame.legs[2].x).toBeCloseTo(-800 + 275, 9);
    expect(frame.legs[2].y).toBeCloseTo(-1000 - 275 * Math.sqrt(3), 9);
  });
  test('RK-6 at the start: the others stay, feet and clamps too', () => {
    const after = expectLaws(plan, { type: 'addLeg', setup, rack: 'front', at: 'start', leg: leg('l9'), span });
    const frame = frameOf(after, 'front');
    const before = frameOf(plan, 'front');
    expectSameLegs(frame, before, ['l1', 'l2', 'l3']);
    expect(frame.legs[0].id).toBe('l9');
    // The new span runs at 10 - 30 degrees into the leg that was first.
    expect(frame.headings[0]).toBeCloseTo((-20 * Math.PI) / 180, 9);
    expect(rackOf(after, 'front').spans.map((each) => each.turnDeg)).toEqual([0, 30, -40]);
    expect(mountOf(after, 'tom1')).toEqual(mountOf(plan, 'tom1'));
  });
  test('RK-7 removing the leg that was added gives the rack back', () => {
    for (const at of ['start', 'end'] as const) {
      const more = expectLaws(plan, { type: 'addLeg', setup, rack: 'front', at, leg: leg('l9'), span });
      const back = expectLaws(more, { type: 'removeLeg', setup, rack: 'front', leg: 'l9' });
      expectSameLegs(frameOf(back, 'front'), frameOf(plan, 'front'), ['l1', 'l2', 'l3']);
      expect(rackOf(back, 'front').spans).toEqual(rackOf(plan, 'front').spans);
    }
  });
  test('RK-7 an end leg goes with its span; what hung there is held by nothing', () => {
    const last = expectLaws(plan, { type: 'removeLeg', setup, rack: 'front', leg: 'l3' });
    expectSameLegs(frameOf(last, 'front'), frameOf(plan, 'front'), ['l1', 'l2']);
    expect([mountOf(last, 'tom1'), mountOf(last, 'tom2'), mountOf(last, 'splash')]).toEqual([null, null, null]);
    const first = expectLaws(plan, { type: 'removeLeg', setup, rack: 'front', leg: 'l1' });
    expectSameLegs(frameOf(first, 'front'), frameOf(plan, 'front'), ['l2', 'l3']);
    expect(mountOf(first, 'tom1')).toEqual(mountOf(plan, 'tom1'));
  });
  test('refusals', () => {
    const remove = (rack: string, id: string) => ({ type: 'removeLeg', setup, rack, leg: id }) as const;
    expectRefusal(plan, remove('front', 'l2'), 'inner_leg', /stands between two others/);
    expectRefusal(plan, remove('left', 'l2'), 'two_legs_left', /only two legs/);
    expectRefusal(plan, remove('left', 'l7'), 'unknown', /no leg "l7"/);
    const add = (id: string, barId: string): AddLeg =>
      ({
        type: 'addLeg',
        setup,
        rack: 'left',
        at: 'end',
        leg: leg(id),
        span: { ...span, bars: [bar(barId)] },
      }) as const;
    expectRefusal(plan, add('l1', 'b9'), 'id_taken', /a leg with the id "l1"/);
    expectRefusal(plan, add('l9', 'b1'), 'id_taken', /a bar with the id "b1"/);
    expectRefusal(plan, add('l9', '__proto__'), 'id_unusable', /"__proto__" cannot be used as an id/);
    expectRefusal(plan, { ...add('l9', 'b9'), span: { ...span, bars: [] } }, 'breaks_plan', /"bars" has 0 entries/);
  });
});

describe('addBar and removeBar', () => {
  test('RK-8 a bar more changes no leg; without it the rack is as it was', () => {
    const more = expectLaws(plan, { type: 'addBar', setup, rack: 'left', span: 0, bar: bar('b2', 1000, 300) });
    expectSameLegs(frameOf(more, 'left'), frameOf(plan, 'left'), ['l1', 'l2']);
    expect(expectLaws(more, { type: 'removeBar', setup, rack: 'left', bar: 'b2' })).toEqual(plan);
  });
  test('RK-9 where the first bar goes, the next one keeps the legs where they are', () => {
    const after = expectLaws(plan, { type: 'removeBar', setup, rack: 'front', bar: 'b1' });
    expectSameLegs(frameOf(after, 'front'), frameOf(plan, 'front'), ['l1', 'l2', 'l3']);
    expect(rackOf(after, 'front').spans[0].farOverhangMm).toBeCloseTo(150, 6);
  });
  test('RK-9 a next bar that does not reach brings the leg to its end', () => {
    const short = expectLaws(plan, { type: 'setBar', setup, rack: 'front', bar: 'b2', set: { cutLengthMm: 700 } });
    const after = expectLaws(short, { type: 'removeBar', setup, rack: 'front', bar: 'b1' });
    expect(frameOf(after, 'front').chords[0]).toBeCloseTo(650, 9);
  });
  test('RK-10 what was on the bar is held by nothing', () => {
    const more = expectLaws(plan, { type: 'addBar', setup, rack: 'left', span: 0, bar: bar('b2', 1000, 300) });
    expect(mountOf(expectLaws(more, { type: 'removeBar', setup, rack: 'left', bar: 'b1' }), 'crash')).toBeNull();
    expect(mountOf(expectLaws(more, { type: 'removeBar', setup, rack: 'left', bar: 'b2' }), 'crash')).not.toBeNull();
  });
  test('refusals', () => {
    expectRefusal(
      plan,
      { type: 'removeBar', setup, rack: 'left', bar: 'b1' },
      'last_bar',
      /only bar between those two legs of "Left rack"/,
    );
    expectRefusal(plan, { type: 'removeBar', setup, rack: 'left', bar: 'b7' }, 'unknown', /no bar "b7"/);
    expectRefusal(plan, { type: 'addBar', setup, rack: 'front', span: 0, bar: bar('b3') }, 'id_taken', /"b3"/);
    expectRefusal(plan, { type: 'addBar', setup, rack: 'front', span: 5, bar: bar('b7') }, 'unknown', /no span "6"/);
    const full = { ...chain('x', 'X'), id: 'front', name: 'Full' };
    full.spans[0].bars = [1, 2, 3, 4, 5, 6].map((i) => bar(`c${i}`));
    const many = {
      ...plan,
      setups: {
        ...plan.setups,
        straight: { ...plan.setups.straight, pieces: { ...plan.setups.straight.pieces, front: full } },
      },
    };
    expectRefusal(
      many,
      { type: 'addBar', setup, rack: 'front', span: 0, bar: bar('b7') },
      'breaks_plan',
      /"bars" has 7 entries, and the most is 6/,
    );
  });
});
