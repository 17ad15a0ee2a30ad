import { describe, expect, test } from 'vitest';
import { CATALOGUE } from '../../../src/gear/catalogue.ts';
import type { Gear } from '../../../src/gear/schema.ts';
import type { Command } from '../../../src/plan/commands/index.ts';
import type { Riser } from '../../../src/plan/schema.ts';
import { item, samplePlan } from '../../fixtures/plans.ts';
import { expectLaws, expectRefusal } from './laws.ts';

const plan = samplePlan();
const riser: Riser = { ...plan.risers.riser, id: 'small', name: 'Small riser' };

describe('risers', () => {
  test('DO-1 add, edit, remove; setups that stood on it stand on the floor', () => {
    const more = expectLaws(plan, { type: 'addRiser', riser });
    expect(more.risers.small).toEqual(riser);
    const edited = expectLaws(more, {
      type: 'editRiser',
      riser: 'small',
      set: { heightMm: 200, ratedKPa: 5, modules: riser.modules.slice(1) },
    });
    expect(edited.risers.small).toEqual({ ...riser, heightMm: 200, ratedKPa: 5, modules: riser.modules.slice(1) });
    expect(
      expectLaws(more, { type: 'editRiser', riser: 'small', set: { ratedKPa: null } }).risers.small.ratedKPa,
    ).toBeNull();
    const less = expectLaws(plan, { type: 'removeRiser', riser: 'riser' });
    expect([less.risers, less.setups.straight.riser]).toEqual([{}, null]);
  });
  test('refusals', () => {
    expectRefusal(plan, { type: 'addRiser', riser: plan.risers.riser }, 'id_taken', /a riser with the id "riser"/);
    expectRefusal(
      plan,
      { type: 'addRiser', riser: { ...riser, modules: [] } },
      'breaks_plan',
      /^Riser "Small riser": "modules" has 0 entries/,
    );
    expectRefusal(plan, { type: 'editRiser', riser: 'no', set: { heightMm: 1 } }, 'unknown', /no riser "no"/);
    expectRefusal(plan, { type: 'editRiser', riser: 'riser', set: {} }, 'nothing_asked', /Nothing/);
    expectRefusal(
      plan,
      { type: 'editRiser', riser: 'riser', set: { heightMm: -1 } },
      'breaks_plan',
      /^Riser "House riser": "heightMm" is -1, and must be at least 0\.$/,
    );
    expectRefusal(plan, { type: 'removeRiser', riser: 'no' }, 'unknown', /no riser "no"/);
    const [first] = plan.risers.riser.modules;
    expectRefusal(
      plan,
      { type: 'editRiser', riser: 'riser', set: { modules: [first, first] } },
      'breaks_plan',
      /module 2: another module of this riser has its id "m1"/,
    );
  });
});

describe('name, units, notes, limits', () => {
  test('DO-2 each is written, and null takes it away', () => {
    expect(expectLaws(plan, { type: 'renamePlan', name: 'Tour' }).name).toBe('Tour');
    expect(expectLaws(plan, { type: 'setUnits', units: 'in' }).units).toBe('in');
    const noted = expectLaws(plan, { type: 'setNotes', note: 'bring spares', contact: 'the drum tech' });
    expect([noted.note, noted.contact]).toEqual(['bring spares', 'the drum tech']);
    expect(expectLaws(noted, { type: 'setNotes', note: null })).toEqual({ ...plan, contact: 'the drum tech' });
    const inSetup = expectLaws(plan, { type: 'setNotes', setup: 'empty', note: 'x' });
    expect(inSetup.setups.empty.note).toBe('x');
    expect(expectLaws(inSetup, { type: 'setNotes', setup: 'empty', note: null })).toEqual(plan);
    const limits = { clearanceMm: { 'pedal+stand': 20, 'cymbal+cymbal': null }, heightMm: 15 };
    const limited = expectLaws(plan, { type: 'setLimits', limits });
    expect(limited.limits).toEqual(limits);
    expect(expectLaws(limited, { type: 'setLimits', limits: null })).toEqual(plan);
  });
  test('refusals', () => {
    expectRefusal(
      plan,
      { type: 'renamePlan', name: 'x'.repeat(121) },
      'breaks_plan',
      /^The plan: "name" has 121 characters/,
    );
    expectRefusal(plan, { type: 'setUnits', units: 'ft' } as unknown as Command, 'breaks_plan', /must be "mm" or "in"/);
    expectRefusal(plan, { type: 'setNotes' }, 'nothing_asked', /Nothing/);
    expectRefusal(plan, { type: 'setNotes', setup: 'empty', contact: 'x' }, 'nothing_asked', /Nothing/);
    expectRefusal(plan, { type: 'setNotes', setup: 'no', note: 'x' }, 'unknown', /no setup "no"/);
    expectRefusal(
      plan,
      { type: 'setLimits', limits: { clearanceMm: { a: -1 } } },
      'breaks_plan',
      /^Limits: "clearanceMm.a" is -1, and must be at least 0\.$/,
    );
  });
});

describe('gear of the plan’s own', () => {
  const tom = plan.gear.tom as Gear & { diameterMm: number };
  test('DO-3 an entry replaced by a measured one', () => {
    const measured = { ...tom, diameterMm: 307, measured: ['diameterMm'] } as Gear;
    expect(expectLaws(plan, { type: 'setGear', gear: measured }).gear.tom).toEqual(measured);
  });
  test('DO-4 an entry in use cannot go, unless the catalogue has the same id', () => {
    expectRefusal(
      plan,
      { type: 'removeGear', gear: 'tom' },
      'gear_in_use',
      /^"Tom 12 x 8" is used by piece "Tom 1" in setup "Straight racks": change that first\.$/,
    );
    for (const [gear, piece] of [
      ['tube-bar', 'Left rack'],
      ['foot-t', 'Left rack'],
      ['clamp-own', 'Left crash'],
      ['platform-2', 'Tom 1'],
      ['link-1', 'Hi-hat stand'],
    ])
      expectRefusal(plan, { type: 'removeGear', gear }, 'gear_in_use', new RegExp(`piece "${piece}"`));
    const { tom1 } = plan.setups.straight.pieces;
    if (tom1.kind !== 'item' || !tom1.mount) throw new Error('Tom 1 hangs on a platform.');
    const arm = { ...plan.gear['boom-1'], id: 'arm-own' } as Gear;
    const mount = { ...tom1.mount, platformArm: 'arm-own' };
    const onPlatform = expectLaws(expectLaws(plan, { type: 'setGear', gear: arm }), {
      type: 'setPiece',
      setup: 'straight',
      piece: 'tom1',
      set: { mount },
    });
    expectRefusal(onPlatform, { type: 'removeGear', gear: 'arm-own' }, 'gear_in_use', /piece "Tom 1"/);
    const common = CATALOGUE.find((gear) => gear.kind === 'drum')!;
    const measured = expectLaws(plan, { type: 'setGear', gear: { ...common, massKg: 3.3 } as Gear });
    const used = expectLaws(measured, { type: 'addPiece', setup: 'empty', piece: item('d', 'D', common.id, 0, 0) });
    const back = expectLaws(used, { type: 'removeGear', gear: common.id });
    expect(back.gear).toEqual(plan.gear);
  });
  test('refusals', () => {
    expectRefusal(plan, { type: 'removeGear', gear: 'toString' }, 'unknown', /no gear entry of its own "toString"/);
    expectRefusal(
      plan,
      { type: 'setGear', gear: { ...tom, diameterMm: -1 } as Gear },
      'breaks_plan',
      /^Gear "Tom 12 x 8": "diameterMm" is -1, and must be at least 100\.$/,
    );
    expectRefusal(
      plan,
      { type: 'setGear', gear: { ...tom, id: 'constructor' } as Gear },
      'id_unusable',
      /cannot be used/,
    );
    // A kind that no longer fits where the entry is used.
    expectRefusal(
      plan,
      { type: 'setGear', gear: { ...plan.gear['foot-t'], id: 'tube-bar' } as Gear },
      'breaks_plan',
      /piece "Left rack", bar 1: its tube is "T-foot", which is a foot/,
    );
  });
});

describe('many', () => {
  test('DO-5 several in turn are one step, and each sees what came before', () => {
    const after = expectLaws(plan, {
      type: 'many',
      commands: [
        { type: 'duplicateSetup', setup: 'straight', id: 'copy', name: 'Copy' },
        { type: 'removePieces', setup: 'copy', pieces: ['left'] },
        { type: 'setRiser', setup: 'copy', riser: null },
      ],
    });
    expect(after.setups.copy.riser).toBeNull();
    expect(after.setups.straight).toEqual(plan.setups.straight);
  });
  test('DO-5 all or none', () => {
    expectRefusal(
      plan,
      {
        type: 'many',
        commands: [
          { type: 'renamePlan', name: 'X' },
          { type: 'removeSetup', setup: 'no' },
        ],
      },
      'unknown',
      /no setup "no"/,
    );
    expectRefusal(plan, { type: 'many', commands: [] }, 'nothing_asked', /Nothing/);
  });
  test('what is broken on the way and whole at the end is carried out', () => {
    // The bar is too short for the clamp until the clamp has moved.
    const mount = {
      carrier: { on: 'bar' as const, rack: 'left', bar: 'b1', atMm: 200 },
      clamp: 'clamp-own',
      arm: 'boom-1',
    };
    expectLaws(plan, {
      type: 'many',
      commands: [
        { type: 'setBar', setup: 'straight', rack: 'left', bar: 'b1', set: { cutLengthMm: 350 } },
        { type: 'setPiece', setup: 'straight', piece: 'crash', set: { mount } },
      ],
    });
  });
});
