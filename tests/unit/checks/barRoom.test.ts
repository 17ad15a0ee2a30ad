/** Room on bars, by hand: joints 60 mm wide at 50 mm from each end of a bar of 1000 mm, clamps of 60 mm. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { barRoom, type ClampPlace, freeStretches, rackRoom, roomForMore } from '../../../src/checks/barRoom.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Carrier, Item, Plan } from '../../../src/plan/schema.ts';
import { item, samplePlan } from '../../fixtures/plans.ts';

const clamp = (atMm: number, widthMm = 60): ClampPlace => ({ piece: 'p', gear: 'c', joint: false, atMm, widthMm });

/** The test plan with further crashes held where the carriers say. */
function planWith(...carriers: Carrier[]): Plan {
  const plan = structuredClone(samplePlan());
  const setup = plan.setups.straight;
  carriers.forEach((carrier, k) => {
    const id = `more-${k + 1}`;
    const held: Item = { ...item(id, `More ${k + 1}`, 'crash', 0, 0) };
    setup.pieces[id] = { ...held, mount: { carrier, clamp: 'clamp-own', arm: 'boom-1' } };
    setup.order.push(id);
  });
  return plan;
}

function roomOf(plan: Plan) {
  const layout = layoutSetup(plan, 'straight');
  const room = rackRoom(plan, plan.setups.straight, layout);
  return { room, findings: barRoom(layout, room) };
}

const onLeft = (atMm: number): Carrier => ({ on: 'bar', rack: 'left', bar: 'b1', atMm });
const onLeg = (heightMm: number): Carrier => ({ on: 'leg', rack: 'left', leg: 'l2', heightMm });

test('a bar with two joints and one clamp', () => {
  const { room, findings } = roomOf(samplePlan());
  expect(room.bars[0]).toMatchObject({ piece: 'left', bar: 'b1', length: 1000, free: 820, longestFree: 490 });
  expect(room.bars[0].stretches).toEqual([
    [0, 20],
    [80, 370],
    [430, 920],
    [980, 1000],
  ]);
  // 290 and 490 mm hold 4 and 8 clamps of 60 mm; the ends' 20 mm none.
  expect(roomForMore(room.bars[0].stretches, 60)).toBe(12);
  expect(findings.map(({ code, state }) => [code, state])).toEqual([['bar_has_room', 'clear']]);
});

test('BR-2 the fullest bar is told when all fit', () => {
  const { room, findings } = roomOf(samplePlan());
  expect(findings[0].value).toBe(Math.min(...room.bars.map((bar) => bar.longestFree)));
  expect(findings[0].bodies).toEqual(['front/b3']);
});

describe('BR-1 overlaps', () => {
  test.each([
    ['30 mm too near a neighbour', onLeft(430), -30, ['crash', 'more-1']],
    ['upon a joint', onLeft(100), -10, ['left', 'more-1']],
    ['upon the joint of bar and upright, on the upright', onLeg(650), -10, ['more-1', 'left']],
    ['upon the joint of T-foot and upright', onLeg(80), -10, ['left', 'more-1']],
  ])('%s', (_, carrier, value, pieces) => {
    const { findings } = roomOf(planWith(carrier));
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ code: 'clamps_overlap', state: 'blocked', value, limit: 0, pieces });
    expect(findings[0].at).not.toBeNull();
  });

  test('touching is no overlap', () => {
    expect(roomOf(planWith(onLeft(460), onLeft(110))).findings.map(({ state }) => state)).toEqual(['clear']);
    expect(roomOf(planWith(onLeg(640))).findings.map(({ state }) => state)).toEqual(['clear']);
  });

  test('a clamp past the end of its tube, by how much', () => {
    const plan = planWith(onLeft(1000));
    expect(roomOf(plan).findings.map(({ code, value }) => [code, value])).toEqual([
      ['clamps_overlap', -10],
      ['clamp_past_end', -30],
    ]);
    const top = roomOf(planWith(onLeg(880))).findings;
    expect(top.map(({ code, value }) => [code, value])).toEqual([['clamp_past_end', -10]]);
  });

  test('a wide clamp is held against more than its neighbour', () => {
    const plan = planWith(onLeft(500), onLeft(560));
    plan.gear['clamp-wide'] = { ...plan.gear['clamp-own'], id: 'clamp-wide', widthMm: 200 } as Plan['gear'][string];
    (plan.setups.straight.pieces.crash as Item).mount!.clamp = 'clamp-wide';
    // The crash's clamp takes 300 to 500: 470-530 and 530-590 lie 30 mm into it, and beyond it.
    expect(roomOf(plan).findings.map(({ pieces, value }) => [pieces, value])).toEqual([[['crash', 'more-1'], -30]]);
  });
});

test('a bar that does not reach its second leg has one joint', () => {
  const plan = structuredClone(samplePlan());
  const front = plan.setups.straight.pieces.front;
  if (front.kind !== 'rack') throw new Error('front is a rack');
  front.spans[0].bars[1].cutLengthMm = 600;
  const bar = roomOf(plan).room.bars.find((each) => each.bar === 'b2')!;
  expect(bar.clamps.map(({ atMm }) => atMm)).toEqual([50]);
  expect(bar.free).toBe(540);
});

describe('free stretches', () => {
  test.each([
    ['nothing on it', 500, [], [[0, 500]]],
    [
      'clamps that overlap count once',
      500,
      [clamp(100), clamp(120)],
      [
        [0, 70],
        [150, 500],
      ],
    ],
    ['a clamp over each end', 200, [clamp(0), clamp(190)], [[30, 160]]],
    ['one clamp over all', 50, [clamp(25)], []],
  ])('%s', (_, length, clamps, expected) => expect(freeStretches(length, clamps)).toEqual(expected));

  test('never cover a clamp, and with the clamps cover the tube (seed 11)', () => {
    const places = fc.array(
      fc.record({ at: fc.integer({ min: 0, max: 300 }), width: fc.integer({ min: 1, max: 80 }) }),
    );
    fc.assert(
      fc.property(places, (list) => {
        const clamps = list.map(({ at, width }) => clamp(at, width));
        const stretches = freeStretches(300, clamps);
        for (let x = 0.25; x < 300; x += 0.5) {
          const covered = clamps.some(({ atMm, widthMm }) => Math.abs(x - atMm) < widthMm / 2);
          const free = stretches.some(([from, to]) => from < x && x < to);
          if (covered === free) return false;
        }
        return true;
      }),
      { seed: 11 },
    );
  });
});

test('a clamp that fits exactly has room', () => {
  expect(roomForMore([[0, 60]], 60)).toBe(1);
  expect(roomForMore([[0.1, 0.4]], 0.1)).toBe(3); // 0.3 and 0.1 have no exact binary form
  expect(
    roomForMore(
      [
        [0, 59.9],
        [100, 159.9],
      ],
      60,
    ),
  ).toBe(0);
});
