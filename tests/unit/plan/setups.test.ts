import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pointAlong } from '../../../src/geometry/arcsLine.ts';
import type { Command } from '../../../src/plan/commands/index.ts';
import { carriedBy, placesByMotion } from '../../../src/plan/motion.ts';
import { rackFrame } from '../../../src/plan/rackFrame.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan, Rack } from '../../../src/plan/schema.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { expectLaws, expectRefusal } from './laws.ts';

const plan = samplePlan();

describe('setups', () => {
  test('SE-1 a copy stands after its original, with the same pieces under the same ids', () => {
    const after = expectLaws(plan, { type: 'duplicateSetup', setup: 'straight', id: 'curved', name: 'Curved racks' });
    expect(after.order).toEqual(['straight', 'curved', 'empty']);
    expect(after.setups.curved).toEqual({ ...plan.setups.straight, id: 'curved', name: 'Curved racks' });
  });
  test('SE-1 the copy goes its own way', () => {
    const copied = expectLaws(plan, { type: 'duplicateSetup', setup: 'straight', id: 'curved', name: 'Curved racks' });
    const bend = { radiusMm: 800, straightEndsMm: 0, side: 'left' as const };
    const after = expectLaws(copied, { type: 'bendRack', setup: 'curved', rack: 'left', bend });
    expect(after.setups.straight).toBe(copied.setups.straight);
    expect((after.setups.curved.pieces.left as Rack).spans[0].bars[0].bend).toEqual(bend);
  });
  test('SE-2 add, rename, order, remove', () => {
    const setup = { id: 'new', name: 'New', riser: 'riser', pieces: {}, order: [] };
    expect(expectLaws(plan, { type: 'addSetup', setup, at: 0 }).order).toEqual(['new', 'straight', 'empty']);
    expect(expectLaws(plan, { type: 'addSetup', setup }).order).toEqual(['straight', 'empty', 'new']);
    expect(expectLaws(plan, { type: 'renameSetup', setup: 'empty', name: 'Bare' }).setups.empty.name).toBe('Bare');
    expect(expectLaws(plan, { type: 'orderSetups', order: ['empty', 'straight'] }).order).toEqual([
      'empty',
      'straight',
    ]);
    const less = expectLaws(plan, { type: 'removeSetup', setup: 'straight' });
    expect([less.order, Object.keys(less.setups)]).toEqual([['empty'], ['empty']]);
    expectRefusal(less, { type: 'removeSetup', setup: 'empty' }, 'last_setup', /^"Nothing yet" is the only setup/);
  });
  test('SE-3 a riser or the floor', () => {
    expect(expectLaws(plan, { type: 'setRiser', setup: 'straight', riser: null }).setups.straight.riser).toBeNull();
    expect(expectLaws(plan, { type: 'setRiser', setup: 'empty', riser: 'riser' }).setups.empty.riser).toBe('riser');
    expectRefusal(
      plan,
      { type: 'setRiser', setup: 'empty', riser: 'toString' },
      'unknown',
      /^The plan has no riser "toString"\.$/,
    );
  });
  test('refusals', () => {
    const setup = { id: 'new', name: 'New', riser: null, pieces: {}, order: ['ghost'] };
    expectRefusal(plan, { type: 'addSetup', setup }, 'breaks_plan', /^Setup "New": the order names piece "ghost"/);
    expectRefusal(
      plan,
      { type: 'addSetup', setup: { ...setup, id: 'empty' } },
      'id_taken',
      /a setup with the id "empty"/,
    );
    expectRefusal(plan, { type: 'duplicateSetup', setup: 'straight', id: 'empty', name: 'X' }, 'id_taken', /"empty"/);
    expectRefusal(
      plan,
      { type: 'duplicateSetup', setup: 'straight', id: '__proto__', name: 'X' },
      'id_unusable',
      /cannot be used/,
    );
    expectRefusal(plan, { type: 'duplicateSetup', setup: 'no', id: 'x', name: 'X' }, 'unknown', /no setup "no"/);
    expectRefusal(plan, { type: 'orderSetups', order: ['empty'] }, 'order_differs', /every setup once/);
    expectRefusal(plan, { type: 'renameSetup', setup: 'no', name: 'X' }, 'unknown', /no setup "no"/);
    expectRefusal(plan, { type: 'removeSetup', setup: 'no' }, 'unknown', /no setup "no"/);
    const full = { ...plan, setups: { ...plan.setups }, order: [...plan.order] };
    for (let i = 2; i < 40; i++) {
      full.setups[`s${i}`] = { ...plan.setups.empty, id: `s${i}` };
      full.order.push(`s${i}`);
    }
    expectRefusal(full, { type: 'addSetup', setup: { ...setup, order: [] } }, 'breaks_plan', /41/);
  });
});

describe('mirrorSetup', () => {
  const mirror = (from: Plan, axisXMm = 0) => expectLaws(from, { type: 'mirrorSetup', setup: 'straight', axisXMm });
  const bent = expectLaws(plan, {
    type: 'bendRack',
    setup: 'straight',
    rack: 'front',
    bend: { radiusMm: 900, straightEndsMm: 50, side: 'left' },
  });

  test('SE-4 items change sides and turn the other way; heights and tilts stay', () => {
    const { pieces } = mirror(plan).setups.straight;
    expect(pieces.crash.place).toEqual({ xMm: 650, yMm: -450, headingDeg: -20, heightMm: 1050, tiltDeg: 12 });
    expect((pieces.pedal as Item).second).toEqual({ xMm: 320, yMm: 90, headingDeg: -15 });
  });
  test('SE-4 sockets of a platform change sides where it has the mirrored one; others stay', () => {
    const socketOf = (p: Plan, id: string) => {
      const piece = p.setups.straight.pieces[id];
      const carrier = piece.kind === 'item' ? piece.mount?.carrier : undefined;
      return carrier?.on === 'socket' ? carrier.socket : null;
    };
    const platform = (sockets: [number, number, 'tom' | 'rear'][]): Plan => {
      const gear = plan.gear['platform-2'];
      if (gear.kind !== 'platform') throw new Error('A platform.');
      const made = sockets.map(([xMm, yMm, use]) => ({ xMm, yMm, use }));
      return { ...plan, gear: { ...plan.gear, 'platform-2': { ...gear, sockets: made } } };
    };
    expect(socketOf(plan, 'tom2')).toBe(1);
    // Left and right.
    expect(socketOf(mirror(plan), 'tom2')).toBe(0);
    // The mirror image of socket 2 is itself; a rear one is not a tom's; an image 1 mm off is none.
    expect(
      socketOf(
        mirror(
          platform([
            [-80, 0, 'tom'],
            [0, -50, 'rear'],
          ]),
        ),
        'tom2',
      ),
    ).toBe(1);
    expect(
      socketOf(
        mirror(
          platform([
            [-80, 0, 'rear'],
            [80, 0, 'tom'],
          ]),
        ),
        'tom2',
      ),
    ).toBe(1);
    expect(
      socketOf(
        mirror(
          platform([
            [-81, 0, 'tom'],
            [80, 0, 'tom'],
          ]),
        ),
        'tom2',
      ),
    ).toBe(1);
  });
  test('SE-5 every leg, foot and place on a bar is the mirror image of what it was', () => {
    for (const axis of [0, 125.5]) {
      const after = mirror(bent, axis);
      for (const id of ['left', 'front']) {
        const was = rackFrame(bent.setups.straight.pieces[id] as Rack);
        const is = rackFrame(after.setups.straight.pieces[id] as Rack);
        for (const [i, leg] of was.legs.entries()) {
          expect(is.legs[i].x).toBeCloseTo(2 * axis - leg.x, 5);
          expect(is.legs[i].y).toBeCloseTo(leg.y, 5);
          // A direction's mirror image about an upright line: its cosine changes sign, its sine stays.
          expect(Math.cos(is.legs[i].headingRad)).toBeCloseTo(-Math.cos(leg.headingRad), 9);
          expect(Math.sin(is.legs[i].headingRad)).toBeCloseTo(Math.sin(leg.headingRad), 9);
        }
        for (const [i, bar] of was.bars.entries())
          for (const s of [0, 123, bar.lengthMm / 2, bar.lengthMm]) {
            expect(pointAlong(is.bars[i].line, s).x).toBeCloseTo(2 * axis - pointAlong(bar.line, s).x, 5);
            expect(pointAlong(is.bars[i].line, s).y).toBeCloseTo(pointAlong(bar.line, s).y, 5);
          }
      }
    }
  });
  test('SE-6 twice is not at all', () => {
    expect(mirror(mirror(bent))).toEqual(bent);
    expect(mirror(mirror(bent, -310), -310)).toEqual(bent);
    const done = (from: Plan, command: Command): Plan => {
      const ran = runCommand(from, command);
      if (!ran.ok) throw new Error(ran.refusal.code);
      return ran.plan;
    };
    const across: Command = { type: 'mirrorSetup', setup: 'straight', axisXMm: 0 };
    fc.assert(
      fc.property(fc.integer({ min: -179_999, max: 180_000 }), (thousandths) => {
        const headingDeg = thousandths / 1000;
        const places = { left: { headingDeg }, tom1: { headingDeg } };
        const turned = done(plan, { type: 'placePieces', setup: 'straight', places });
        expect(done(done(turned, across), across)).toEqual(turned);
      }),
      { seed: 8, numRuns: 40 },
    );
  }, 30_000);
  test('the riser stays, and other setups', () => {
    const after = mirror(plan);
    expect(after.risers).toBe(plan.risers);
    expect(after.setups.empty).toBe(plan.setups.empty);
    expectRefusal(plan, { type: 'mirrorSetup', setup: 'no', axisXMm: 0 }, 'unknown', /no setup "no"/);
    expectRefusal(
      plan,
      { type: 'mirrorSetup', setup: 'straight', axisXMm: Number.NaN },
      'breaks_plan',
      /finite number/,
    );
    expectRefusal(plan, { type: 'mirrorSetup', setup: 'straight', axisXMm: 40_000 }, 'breaks_plan', /at most 50000/);
  });
});

describe('moving pieces together', () => {
  const setup = plan.setups.straight;
  test('SE-7 a quarter turn about a point, then a shift', () => {
    const places = placesByMotion(setup, ['left', 'crash', 'ghost'], {
      turnDeg: 90,
      aboutXMm: -800,
      aboutYMm: -100,
      dxMm: 10,
      dyMm: 0,
    });
    // The crash, 150 right and 350 down of the rack's first leg, comes 350 right and 150 up of it.
    expect(places).toEqual({
      left: { xMm: -790, yMm: -100, headingDeg: 0 },
      crash: { xMm: -440, yMm: 50, headingDeg: 110 },
    });
    const after = expectLaws(plan, { type: 'placePieces', setup: 'straight', places });
    expect(after.setups.straight.pieces.crash.place).toMatchObject({ heightMm: 1050, tiltDeg: 12 });
  });
  test('a shift keeps headings as they are', () => {
    expect(placesByMotion(setup, ['crash'], { turnDeg: 0, aboutXMm: 0, aboutYMm: 0, dxMm: 1, dyMm: 2 })).toEqual({
      crash: { xMm: -649, yMm: -448 },
    });
  });
  test('SE-8 what hangs on a rack, and on what hangs on it', () => {
    expect(carriedBy(setup, 'front')).toEqual(['tom1', 'tom2', 'splash']);
    expect(carriedBy(setup, 'tom1')).toEqual(['tom2']);
    expect(carriedBy(setup, 'left')).toEqual(['crash']);
    expect(carriedBy(setup, 'hat-stand')).toEqual(['hat']);
    expect(carriedBy(setup, 'pedal')).toEqual([]);
  });
});
