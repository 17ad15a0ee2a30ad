/** The seated drummer: cases worked by hand, and what its points have to keep on every sample. */
import { describe, expect, test } from 'vitest';
import { type Figure, figureOf } from '../../../src/drummer/figure.ts';
import type { Side } from '../../../src/drummer/sizes.ts';
import type { Point3 } from '../../../src/geometry/solids.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { item } from '../../fixtures/plans.ts';
import { sampleOf, sampleSetups } from '../../fixtures/samplePlans.ts';

const apart = (a: Point3, b: Point3) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
const other = (side: Side): Side => (side === 'left' ? 'right' : 'left');

function planOf(pieces: readonly Item[], handed?: Side): Plan {
  const plan = newPlan('seated');
  const setup = {
    ...plan.setups['setup-1'],
    pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])),
    order: pieces.map(({ id }) => id),
  };
  if (!handed) return { ...plan, setups: { 'setup-1': setup } };
  const drummers = { d: { id: 'd', name: 'D', sex: 'man', percentile: 50, handed } as const };
  return { ...plan, drummers, setups: { 'setup-1': { ...setup, drummer: 'd' } } };
}
const figure = (plan: Plan, id = 'setup-1'): Figure => {
  const found = figureOf(plan, plan.setups[id]);
  if (!found) throw new Error('Nobody sits there.');
  return found;
};
const works = (plan: Plan, id?: string) =>
  figure(plan, id).legs.map(({ side, works }) => `${side} ${works ? `${works.piece} ${works.board}` : 'rests'}`);

const seat = item('throne', 'Throne', 'throne-round', 0, 0);
const throne: Item = { ...seat, place: { ...seat.place, heightMm: 500 } };
const pedal = (id: string, x: number, gear = 'pedal-single') => item(id, id, gear, x, -640);
const hat = (x: number) => item('hat', 'Hat', 'stand-hi-hat-tripod', x, -600);

describe('a typical drummer on a throne of 500 mm, by hand', () => {
  const { hips, shoulders, legs, radiiMm } = figure(planOf([throne, pedal('kick', -200)]));
  test('hips and shoulders over the seat: 378 and 415 mm broad, 90 and 603 mm up', () => {
    expect(hips).toEqual({ left: [94.5, 0, 590], right: [-94.5, 0, 590] });
    expect(shoulders).toEqual({ left: [207.5, 0, 1103], right: [-207.5, 0, 1103] });
    expect(radiiMm).toEqual({ hip: 90, knee: 61.5, ankle: 102 * 0.42 });
  });
  test('the right foot is on the pedal, its toe behind the tower: 300 mm of board, 60 of tower, a shoe of 296', () => {
    const leg = legs.find(({ works }) => works !== null)!;
    expect([leg.side, leg.works]).toEqual(['right', { piece: 'kick', board: 'first' }]);
    // The board from -790 to -490, so the toe's tip at -730 and the heel's at -434; round ends of (102 + 12.5) / 2.
    expect(leg.shoe.radius).toBe(57.25);
    expect(leg.shoe.toe[1]).toBeCloseTo(-730 + 57.25, 9);
    expect(leg.shoe.heel[1]).toBeCloseTo(-434 - 57.25, 9);
    // The ankle 271 / 4 + 12.5 in front of the heel's tip, on 12 mm of board, 25 of sole and 0.257 of 271.
    expect(leg.down.ankle[1]).toBeCloseTo(-434 - 67.75 - 12.5, 9);
    expect(leg.down.ankle[2]).toBeCloseTo(12 + 25 + 0.257 * 271, 9);
    // By the law of cosines: links of 0.685 x 617 and 491.5 - 69.647.
    const far = apart(leg.hip, leg.down.ankle);
    const [thigh, shank] = [0.685 * 617, 491.5 - 0.257 * 271];
    expect(leg.down.kneeRad).toBeCloseTo(Math.acos((thigh ** 2 + shank ** 2 - far ** 2) / (2 * thigh * shank)), 9);
    expect((leg.down.kneeRad * 180) / Math.PI).toBeGreaterThan(100);
    expect((leg.down.kneeRad * 180) / Math.PI).toBeLessThan(125);
  });
  test('a pedal beyond a straight leg says by how much', () => {
    const far = figure(planOf([throne, { ...pedal('kick', -94.5), place: { xMm: -94.5, yMm: -2000, headingDeg: 0 } }]));
    const leg = far.legs.find(({ side }) => side === 'right')!;
    expect(leg.down.missingMm).toBeCloseTo(apart(leg.hip, leg.down.ankle) - 0.685 * 617 - (491.5 - 0.257 * 271), 9);
    expect(leg.down.kneeRad).toBeCloseTo(Math.PI, 6);
  });
});

describe('which foot is which', () => {
  test.each<[string, Plan, string[]]>([
    ['a right-handed kit', planOf([throne, pedal('kick', -200), hat(400)]), ['left hat hiHat', 'right kick first']],
    ['a left-handed kit', planOf([throne, pedal('kick', 200), hat(-400)]), ['left kick first', 'right hat hiHat']],
    [
      'a right-handed drummer at a left-handed kit: legs do not cross',
      planOf([throne, pedal('kick', 200), hat(-400)], 'right'),
      ['left kick first', 'right hat hiHat'],
    ],
    [
      'a double pedal',
      planOf([throne, pedal('kick', -200, 'pedal-double'), hat(500)]),
      ['left hat hiHat', 'left kick second', 'right kick first'],
    ],
    [
      'two bass drums',
      planOf([throne, pedal('kick-1', -240), pedal('kick-2', 240), hat(560)]),
      ['left hat hiHat', 'left kick-2 first', 'right kick-1 first'],
    ],
    ['no hi-hat, the pedal to the right', planOf([throne, pedal('kick', -200)]), ['left rests', 'right kick first']],
    [
      'no hi-hat, a left-handed drummer',
      planOf([throne, pedal('kick', -200)], 'left'),
      ['left kick first', 'right rests'],
    ],
    ['a hi-hat alone', planOf([throne, hat(300)]), ['left hat hiHat', 'right rests']],
    ['a throne alone', planOf([throne]), ['left rests', 'right rests']],
  ])('%s', (_, plan, expected) => expect(works(plan)).toEqual(expected));
  test('the left-handed sample', () => {
    expect(works(sampleOf('left-handed-one-rack'), 'left-handed')).toEqual([
      'left pedal first',
      'right hi-hat-stand hiHat',
    ]);
  });
});

describe.each(sampleSetups())('$name', ({ plan, id }) => {
  const seated = figure(plan, id);
  test('links keep their length, and the knee is above the line from hip to ankle', () => {
    const links = new Set<string>();
    for (const { hip, down, up } of seated.legs)
      for (const { knee, ankle, missingMm } of [down, up]) {
        expect(missingMm).toBe(0);
        links.add(`${apart(hip, knee).toFixed(6)} ${apart(knee, ankle).toFixed(6)}`);
        expect(knee[2]).toBeGreaterThan((hip[2] + ankle[2]) / 2);
      }
    expect(links.size).toBe(1);
  });
  test('a knee makes an angle that people sit with', () => {
    for (const { down } of seated.legs) {
      expect(down.kneeRad).toBeGreaterThan((80 * Math.PI) / 180);
      expect(down.kneeRad).toBeLessThan((140 * Math.PI) / 180);
    }
  });
  test('mirrored, the drummer is mirrored', () => {
    const ran = runCommand(plan, { type: 'mirrorSetup', setup: id, axisXMm: 0 });
    if (!ran.ok) throw new Error('The setup should mirror.');
    const twin = figure(ran.plan, id);
    const same = ([x, y, z]: Point3, [p, q, r]: Point3) => expect(Math.hypot(x + p, y - q, z - r)).toBeLessThan(1e-5);
    for (const side of ['left', 'right'] as const) {
      same(seated.hips[side], twin.hips[other(side)]);
      same(seated.shoulders[side], twin.shoulders[other(side)]);
    }
    expect(twin.legs.length).toBe(seated.legs.length);
    for (const leg of seated.legs) {
      const image = twin.legs.find(
        ({ side, works }) =>
          side === other(leg.side) && works?.piece === leg.works?.piece && works?.board === leg.works?.board,
      )!;
      same(leg.down.knee, image.down.knee);
      same(leg.up.ankle, image.up.ankle);
      same([...leg.shoe.toe, 0], [...image.shoe.toe, 0]);
    }
  });
});
