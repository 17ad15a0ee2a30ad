/** Reach with arm and stick, by hand; and room for sticks over heads. */
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../../src/checks/run.ts';
import { zonesAt } from '../../../src/drummer/arms.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Drummer, Item, Plan } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { item } from '../../fixtures/plans.ts';
import { checkedOf, sampleSetups } from '../../fixtures/samplePlans.ts';
import { some } from '../../fixtures/seeds.ts';

const ID = 'setup-1';
const at = (piece: Item, place: Partial<Item['place']>): Item => ({ ...piece, place: { ...piece.place, ...place } });
const throne = at(item('throne', 'Throne', 'throne-round', 0, 0), { heightMm: 500 });
const tom = (y: number, heightMm = 800) => at(item('tom', 'Tom', 'tom-12x8', 207.5, y), { heightMm });

function planOf(pieces: readonly Item[], drummer?: Partial<Drummer>): Plan {
  const plan = newPlan('arms');
  const setup = {
    ...plan.setups[ID],
    riser: null,
    pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])),
    order: pieces.map(({ id }) => id),
  };
  if (!drummer) return { ...plan, setups: { [ID]: setup } };
  const drummers = { d: { id: 'd', name: 'D', sex: 'man', percentile: 50, handed: 'right', ...drummer } as Drummer };
  return { ...plan, drummers, setups: { [ID]: { ...setup, drummer: 'd' } } };
}
const check = (plan: Plan) => runChecks(plan, ID, layoutSetup(plan, ID));
const reach = (plan: Plan) => check(plan).findings.filter((finding) => finding.check === 'armReach');

/** A typical drummer: 684 mm of arm and two thirds of a stick of 406; shoulders 1103 mm up, 207.5 to either side. */
const ARM = 684 + (406 * 2) / 3;

describe('AR-1 from the shoulder to the spot', () => {
  test('a head straight before the left shoulder: a third of its radius nearer than its middle', () => {
    const [spot] = check(planOf([throne, tom(-700)])).spots;
    expect(spot).toMatchObject({ piece: 'tom', spot: 'head', hand: 'left', zone: 'extended', leanRad: 0 });
    expect(spot.reach).toBeCloseTo(ARM, 9);
    // 12 in is 304.8 mm.
    expect(spot.distance).toBeCloseTo(Math.hypot(700 - 304.8 / 6, 303), 9);
  });
  test('in reach, leaning, beyond any lean', () => {
    expect(reach(planOf([throne, tom(-700)]))).toMatchObject([
      { code: 'spots_reached', state: 'clear', value: 0, limit: 20 },
    ]);
    const leaning = reach(planOf([throne, tom(-1180)]));
    expect(leaning).toMatchObject([{ code: 'spot_leans', state: 'tight', pieces: ['tom'] }]);
    // The shoulder, 513 mm above the hips and over them, leans forward in an upright plane until the arm is straight.
    const lean = (leaning[0].value! * Math.PI) / 180;
    const shoulder = [513 * Math.sin(lean), 590 + 513 * Math.cos(lean)];
    // It leans towards the tom, 10 degrees aside: a few millimetres less.
    expect(Math.abs(Math.hypot(1180 - 304.8 / 6 - shoulder[0], shoulder[1] - 800) - ARM)).toBeLessThan(5);
    expect(reach(planOf([throne, tom(-2500)]))).toMatchObject([{ code: 'spot_beyond', state: 'blocked', value: null }]);
    const plan = planOf([throne, tom(-2500)]);
    expect(findingSentence(reach(plan)[0], plan, ID)).toMatch(/The head of Tom is beyond the drummer’s left stick/);
  });
  test('nobody seated, nothing said', () => expect(reach(planOf([tom(-700)]))).toEqual([]));
});

describe('AR-2 hands, zones, order', () => {
  const kick = item('kick', 'Kick', 'pedal-single', -200, -640);
  const stand = item('stand', 'Stand', 'stand-hi-hat-legless', 430, -560);
  const hats = at(item('hats', 'Hats', 'hi-hats-14', 430, -560), { heightMm: 880 });
  const hand = (drummer?: Partial<Drummer>) =>
    check(planOf([throne, kick, stand, hats], drummer)).spots.map(({ hand }) => hand);
  test('the hi-hat is played crossed, or open-handed; without a drummer the kit says which hand leads', () => {
    expect(hand()).toEqual(['right', 'right']);
    expect(hand({})).toEqual(['right', 'right']);
    expect(hand({ openHanded: true })).toEqual(['left', 'left']);
    expect(hand({ handed: 'left' })).toEqual(['left', 'left']);
  });
  test('zones at a height: sqrt(arm² - rise²) about the shoulder, the forearm’s about the elbow', () => {
    const { figure } = layoutSetup(planOf([throne]), ID);
    const [left, right] = zonesAt(figure!, 700);
    expect([left.x, right.x]).toEqual([207.5, -207.5]);
    expect(left.most).toBeCloseTo(Math.sqrt(ARM ** 2 - 403 ** 2), 9);
    // The elbow hangs 684 - 349 mm below the shoulder.
    expect(left.normal).toBeCloseTo(Math.sqrt((349 + (406 * 2) / 3) ** 2 - (403 - 335) ** 2), 9);
    expect(zonesAt(figure!, 2200)[0]).toMatchObject({ most: null, normal: null });
  });
  test.each(some(sampleSetups(), 4))('$name: by strain, and mirrored the same', ({ plan, id }) => {
    const { spots } = checkedOf(plan, id);
    const strains = spots.map(({ distance, reach: all }) => distance / all);
    expect(strains).toEqual([...strains].sort((a, b) => b - a));
    const ran = runCommand(plan, { type: 'mirrorSetup', setup: id, axisXMm: 0 });
    if (!ran.ok) throw new Error('The setup should mirror.');
    const told = (all: typeof spots, flip: boolean) =>
      all
        .map(({ piece, spot, hand: by, distance, zone }) => {
          const side = flip ? (by === 'left' ? 'right' : 'left') : by;
          return `${piece} ${spot} ${side} ${zone} ${distance.toFixed(4)}`;
        })
        .sort();
    expect(told(checkedOf(ran.plan, id).spots, true)).toEqual(told(spots, false));
  });
});

test('SR-1 a cymbal over a head leaves room for sticks, or too little; beside it nothing is said', () => {
  const ride = (x: number, heightMm: number) => at(item('ride', 'Ride', 'ride-20', x, -700), { heightMm });
  const over = (x: number, heightMm: number) =>
    check(planOf([throne, tom(-700), ride(x, heightMm)])).findings.filter((finding) => finding.check === 'stickRoom');
  expect(over(207.5, 880)).toMatchObject([{ code: 'stick_room_small', state: 'tight', value: 80, limit: 100 }]);
  expect(over(207.5, 950)).toMatchObject([{ code: 'stick_room', state: 'clear', value: 150 }]);
  expect(over(207.5, 1200)).toEqual([]);
  expect(over(800, 880)).toEqual([]);
});
