import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mountReach, mountReadings } from '../../../src/checks/mountReach.ts';
import { seats } from '../../../src/checks/seats.ts';
import { CATALOGUE } from '../../../src/gear/catalogue.ts';
import type { GearOf } from '../../../src/gear/schema.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { catalogueKit as planOf } from '../../fixtures/plans.ts';

/** From the catalogue alone; heights and tilts in the plan's own units. */
const at = (id: string, gear: string, place: Partial<Item['place']> = {}, on?: string): Item => ({
  kind: 'item',
  id,
  name: id,
  gear,
  place: { xMm: 0, yMm: 0, headingDeg: 0, ...place },
  mount: on === undefined ? null : { carrier: { on: 'piece', piece: on }, clamp: null, arm: null },
});
const setupOf = (plan: Plan) => plan.setups[plan.order[0]];
const found = (plan: Plan) => seats(plan, setupOf(plan));
const codes = (plan: Plan) => found(plan).map(({ code }) => code);
const say = (plan: Plan) => found(plan).map((one) => findingSentence(one, plan, plan.order[0]));
const bodies = (plan: Plan) => layoutSetup(plan, plan.order[0]).bodies;
const topOf = (plan: Plan, id: string) => bodies(plan).find((body) => body.id === `${id}/tube`)?.z1;
function reach(plan: Plan) {
  const layout = layoutSetup(plan, plan.order[0]);
  const readings = mountReadings(plan, layout.mounts);
  return { layout, readings, findings: mountReach(setupOf(plan), layout, layout.mounts, readings) };
}

describe('a piece off its stand', () => {
  test('SE-1 hats 4 in beside the rod are blocked, with the distance', () => {
    const plan = planOf(at('stand', 'stand-hi-hat-tripod'), at('hats', 'hi-hats-14', { xMm: 101.6 }, 'stand'));
    expect(found(plan)).toEqual([
      expect.objectContaining({ code: 'beside_its_stand', state: 'blocked', pieces: ['hats', 'stand'], value: 101.6 }),
    ]);
    expect(say(plan)).toEqual(['hats is 101.6 mm beside the rod of stand: put one under the other.']);
  });

  test('SE-1 5 mm is nothing, and a tilted snare may lean over its basket as far as its axis does', () => {
    const snare = (xMm: number, yMm: number, tiltDeg: number) =>
      codes(
        planOf(at('stand', 'stand-snare'), at('snare', 'snare-14x5', { xMm, yMm, tiltDeg, headingDeg: 0 }, 'stand')),
      );
    expect(snare(5, 0, 0)).toEqual([]);
    expect(snare(5.1, 0, 0)).toEqual(['beside_its_stand']);
    // 127 mm of shell and 45 mm to the joint lean by sin 15: the head lies to the back of the tube by up to 44.5 mm and 5 more.
    expect(snare(0, 49, 15)).toEqual([]);
    expect(snare(0, 50, 15)).toEqual(['beside_its_stand']);
    expect(snare(0, -6, 15)).toEqual(['beside_its_stand']);
  });
});

describe('heights', () => {
  test('SE-2 a snare 330 mm above its basket, as the plan sets both', () => {
    const plan = planOf(
      at('stand', 'stand-snare', { heightMm: 510 }),
      at('snare', 'snare-14x5', { heightMm: 510 + 127 + 330 }, 'stand'),
    );
    expect(found(plan)).toEqual([
      expect.objectContaining({ code: 'above_its_stand', state: 'blocked', value: 330, limit: 15 }),
    ]);
    expect(say(plan)).toEqual(['snare is 330 mm above the basket of stand, which is set to 510 mm: raise the stand.']);
  });

  test('SE-2 left open, the stand follows, to the end of its range', () => {
    const plan = (heightMm: number) =>
      planOf(at('stand', 'stand-snare'), at('snare', 'snare-14x5', { heightMm }, 'stand'));
    expect(topOf(plan(650), 'stand')).toBe(523);
    expect(codes(plan(650))).toEqual([]);
    expect(topOf(plan(900), 'stand')).toBe(620);
    expect(say(plan(900))).toEqual([
      'snare is 153 mm above the basket of stand, which goes up to 620 mm: lower the piece, or take a taller stand.',
    ]);
    expect(codes(plan(450))).toEqual(['below_its_stand']);
    expect(say(plan(450))[0]).toMatch(/goes down to 420 mm: raise the piece/);
  });

  test('SE-4 a stand at 4 m, a throne at 1.5 m, a floor tom on legs that are too short', () => {
    const plan = planOf(
      at('stand', 'stand-cymbal-straight', { heightMm: 4000 }),
      at('throne', 'throne-round', { heightMm: 1500 }),
      at('tom', 'floor-tom-16x16', { heightMm: 1200 }),
      at('low', 'throne-round', { heightMm: 300 }),
    );
    expect(found(plan).map(({ code, value, limit }) => [code, value, limit])).toEqual([
      ['height_too_high', 4000, 1600],
      ['height_too_high', 1500, 620],
      ['height_too_high', 1200, 760],
      ['height_too_low', 300, 450],
    ]);
    expect(say(plan)[1]).toBe('throne is set to 1500 mm, and it goes up to 620 mm: lower it, or measure its gear.');
    // What was measured counts.
    const throne = CATALOGUE.find(({ id }) => id === 'throne-round') as GearOf<'throne'>;
    const measured = { ...throne, heightMm: [450, 1600] as [number, number], measured: ['heightMm'] };
    expect(codes({ ...plan, gear: { 'throne-round': measured } })).toEqual([
      'height_too_high',
      'height_too_high',
      'height_too_low',
    ]);
  });
});

describe('what a stand holds', () => {
  test('SE-3 a basket takes its own sizes, one of them; a hi-hat stand no crash', () => {
    const on = (stand: string, ...pieces: string[]) =>
      planOf(
        at('stand', stand),
        ...pieces.map((gear) => at(gear, gear, { heightMm: gear.startsWith('tom') ? 650 : undefined }, 'stand')),
      );
    expect(codes(on('stand-snare', 'snare-14x5'))).toEqual([]);
    expect(codes(on('stand-snare', 'tom-16x13'))).toContain('basket_too_small');
    expect(codes(on('stand-snare', 'snare-10x5'))).toContain('basket_too_large');
    expect(codes(on('stand-snare', 'snare-14x5', 'snare-13x7'))).toContain('stand_too_full');
    expect(codes(on('stand-hi-hat-tripod', 'crash-16'))).toEqual(['stand_holds_no_such']);
    expect(codes(on('stand-snare', 'crash-16'))).toEqual(['stand_holds_no_such']);
    expect(codes(on('stand-cymbal-straight', 'crash-16'))).toEqual([]);
  });

  test('SE-3 a tom stand holds as many toms as it has arms, all from one height', () => {
    const tom = (id: string, xMm: number, heightMm: number) => at(id, 'tom-12x8', { xMm, heightMm }, 'stand');
    const two = planOf(at('stand', 'stand-tom'), tom('a', -300, 820), tom('b', 300, 850));
    expect(codes(two)).toEqual([]);
    const { readings } = reach(two);
    expect(readings.map(({ reached }) => reached)).toEqual([true, true]);
    const top = topOf(two, 'stand')!;
    // Each arm's own upright end slides by 150 mm in the stand's head.
    for (const { settings } of readings) {
      expect(settings.post).toBeGreaterThanOrEqual(top - 1e-6);
      expect(settings.post).toBeLessThanOrEqual(top + 150 + 1e-6);
    }
    expect(codes(planOf(...Object.values(setupOf(two).pieces).map((one) => one as Item), tom('c', 0, 830)))).toEqual([
      'stand_too_full',
    ]);
  });
});

describe('a boom stand', () => {
  const plan = (gear: string, xMm: number, heightMm: number, place: Partial<Item['place']> = {}) =>
    planOf(at('stand', gear, place), at('crash', 'crash-16', { xMm, heightMm }, 'stand'));

  test('MR-5 its boom has a reach: 781 mm asked of an arm of 420 is blocked, with another stand or the distance', () => {
    const far = reach(plan('stand-boom', 781, 1150));
    expect(far.findings).toEqual([
      expect.objectContaining({ code: 'stand_misses', state: 'blocked', arm: 'stand-boom' }),
    ]);
    expect(far.findings[0].value).toBeCloseTo(420 - 781, 9);
    const near = plan('stand-boom', 600, 1150);
    const [finding] = reach(near).findings;
    expect(finding).toMatchObject({ code: 'stand_misses', wouldDo: 'stand-boom-long' });
    expect(findingSentence(finding, near, near.order[0])).toBe(
      'crash is 180 mm beyond the reach of Boom stand: move one of them, or take Boom stand, long arm.',
    );
    expect(reach(plan('stand-boom-long', 600, 1150)).findings[0]).toMatchObject({ code: 'arm_reaches' });
  });

  test('MR-5 a cymbal 600 mm off a straight stand is off it', () => {
    expect(codes(plan('stand-cymbal-straight', 600, 1150))).toEqual(['beside_its_stand']);
  });

  test('its boom is a body from the tilter to the cymbal, its tail what of the rod is left, and the stand weighs what it weighs', () => {
    const own = plan('stand-boom', 300, 1200, { heightMm: 1100 });
    const made = bodies(own);
    const parts = made.filter(({ kind }) => kind === 'arm');
    const [low, high] = [Math.min(...parts.map(({ z0 }) => z0)), Math.max(...parts.map(({ z1 }) => z1))];
    const arm = Math.hypot(300, 100);
    const tail = 460 - arm;
    expect(high).toBeCloseTo(1200 + 15.9 / 2, 9);
    expect(low).toBeCloseTo(1100 - (tail * 100) / arm - 15.9 / 2, 9);
    const ends = parts.flatMap(({ shape: { core } }) => (core.kind === 'segment' ? [core.x0, core.x1] : []));
    expect(Math.max(...ends)).toBeCloseTo(300, 9);
    expect(Math.min(...ends)).toBeCloseTo((-tail * 300) / arm, 9);
    const stand = CATALOGUE.find(({ id }) => id === 'stand-boom')!;
    const weight = (piece: string, kind: string) =>
      made.filter((body) => body.piece === piece && body.kind === kind).reduce((sum, { massKg }) => sum + massKg!, 0);
    expect(weight('stand', 'stand') + weight('crash', 'arm')).toBeCloseTo(stand.massKg!, 12);
    expect(weight('crash', 'arm')).toBe(1.2);
    // The rod's own middle carries it.
    expect(parts.find(({ massKg }) => massKg === 1.2)?.massCentre?.[0]).toBeCloseTo((300 - (tail * 300) / arm) / 2, 9);
  });

  test('wherever its ranges reach, some height of the stand holds the cymbal within all of them, and only there', () => {
    const { heightMm, armMm, tiltDeg } = CATALOGUE.find(({ id }) => id === 'stand-boom') as GearOf<'stand'>;
    const [armLow, armHigh] = armMm!;
    const [tiltLow, tiltHigh] = tiltDeg!;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 600, max: 1900 }), (away, height) => {
        const [reading] = reach(plan('stand-boom', away, height)).readings;
        // By trial: every tilt and arm that ends there, a hundredth of a degree apart.
        let possible = false;
        for (let tilt = tiltLow; tilt <= tiltHigh && !possible; tilt += 0.01) {
          const c = Math.cos((tilt * Math.PI) / 180);
          const arm = away / c;
          const post = height - arm * Math.sin((tilt * Math.PI) / 180);
          possible = arm >= armLow && arm <= armHigh && post >= heightMm[0] && post <= heightMm[1];
        }
        if (possible) {
          expect(reading.reached).toBe(true);
          expect(reading.settings.post).toBeGreaterThanOrEqual(heightMm[0] - 1e-6);
          expect(reading.settings.post).toBeLessThanOrEqual(heightMm[1] + 1e-6);
          expect(reading.settings.arm).toBeLessThanOrEqual(armHigh + 1e-6);
          expect(reading.settings.tilt).toBeGreaterThanOrEqual(tiltLow - 1e-6);
          const rise = reading.settings.arm * Math.sin((reading.settings.tilt * Math.PI) / 180);
          expect(reading.settings.post + rise).toBeCloseTo(height, 6);
        } else if (reading.reached && away > 0) expect(reading.left).toBeLessThan(0.5);
      }),
      { numRuns: 300 },
    );
  });
});
