/** Parts counted by hand from the small test plan: two racks, five legs, four bars. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type PartRow, partRows, partsOf, partUses } from '../../../src/checks/parts.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { readPlan } from '../../../src/plan/read.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan, Rack } from '../../../src/plan/schema.ts';
import { samplePlan } from '../../fixtures/plans.ts';

const counts = (rows: readonly PartRow[]) => rows.map(({ gear, count, cutLength }) => [gear, count, cutLength]);
const rowOf = (rows: readonly PartRow[], gear: string) => rows.find((row) => row.gear === gear)!;

describe('the whole setup', () => {
  const { all } = partsOf(samplePlan(), 'straight');

  test('every part, by kind, label and length', () => {
    expect(counts(all)).toEqual([
      ['tube-bar', 2, 1000],
      ['tube-bar', 1, 800],
      ['tube-bar', 1, 1100],
      ['tube-leg', 5, 900],
      ['foot-t', 5, 500],
      ['clamp-own', 4, null],
      ['clamp-cross', 8, null],
      ['clamp-leg', 5, null],
      ['boom-1', 3, null],
      ['platform-2', 1, null],
      ['link-1', 1, null],
      ['end-cap-38.1mm', 13, null],
      ['hat-stand', 1, null],
      ['tom', 2, null],
      ['crash', 3, null],
      ['double-pedal', 1, null],
    ]);
  });

  test('a tube weighs what its section and cut length say: pi x 36.1 x 2 mm2 of steel', () => {
    expect(all[0].mass).toBeCloseTo(Math.PI * 36.1 * 2 * 1000 * 7850e-9, 9);
    expect(all[0].totalMass).toBeCloseTo(2 * Math.PI * 36.1 * 2 * 1000 * 7850e-9, 9);
    expect(all[0].massFrom).toBe('computed');
  });

  test('a name that says a length stands only on that length', () => {
    expect(all.slice(0, 3).map(({ label }) => label)).toEqual(['Bar tube', 'Straight tube', 'Straight tube']);
  });
});

test('units: a rack with all that it carries, a tied stand with its cymbal among it, a pedal alone', () => {
  const { units } = partsOf(samplePlan(), 'straight');
  expect(units.map(({ id, pieces }) => [id, pieces])).toEqual([
    ['left', ['left', 'crash', 'hat-stand', 'hat']],
    ['front', ['front', 'tom1', 'tom2', 'splash']],
    ['pedal', ['pedal']],
  ]);
});

test('units together have the parts of the whole', () => {
  const parts = partsOf(samplePlan(), 'straight');
  const sum = (rows: readonly PartRow[]) => rows.reduce((total, { count }) => total + count, 0);
  expect(parts.units.reduce((total, unit) => total + sum(unit.parts), 0)).toBe(sum(parts.all));
  expect(parts.units.reduce((total, unit) => total + unit.knownMass, 0)).toBeCloseTo(parts.knownMass, 9);
});

test('the mass of a unit, by hand: left rack with crash, tied hi-hat stand and hi-hat', () => {
  const kgPerMm = Math.PI * 36.1 * 2 * 7850e-9;
  const [left] = partsOf(samplePlan(), 'straight').units;
  const tubes = (1000 + 2 * 900) * kgPerMm;
  const joints = 2 * 0.65 + 2 * 0.6; // the catalogue's clamp-cross and clamp-leg
  const rest = 2 * 1.2 + 2 * 0.5 + 0.9 + 0.6 + 4 + 2 * 1.1; // feet, clamps, boom, link, stand, two crashes
  expect(left.knownMass).toBeCloseTo(tubes + joints + rest, 9);
  expect(left.unmeasured).toBe(0);
});

test('an unknown mass stays unknown, and is counted; a measured one says so', () => {
  const plan = samplePlan();
  const gear: Plan['gear'] = {
    ...plan.gear,
    crash: { ...plan.gear.crash, massKg: null },
    tom: { ...plan.gear.tom, massKg: 3.21, measured: ['massKg'] },
  };
  const { all, unmeasured } = partsOf({ ...plan, gear }, 'straight');
  expect(rowOf(all, 'crash')).toMatchObject({ mass: null, totalMass: null, massFrom: 'unmeasured' });
  expect(rowOf(all, 'tom')).toMatchObject({ mass: 3.21, totalMass: 6.42, massFrom: 'measured' });
  expect(unmeasured).toBe(3);
});

test('end caps: an upright without a foot has one at either end, and no leg joint', () => {
  const plan = structuredClone(samplePlan());
  for (const leg of (plan.setups.straight.pieces.left as Rack).legs) leg.foot = null;
  const { all } = partsOf(plan, 'straight');
  expect(rowOf(all, 'end-cap-38.1mm').count).toBe(15);
  expect(rowOf(all, 'clamp-leg').count).toBe(3);
  expect(rowOf(all, 'foot-t').count).toBe(3);
});

test('a joint that fits no known clamp is counted, without a mass', () => {
  const plan = samplePlan();
  const gear = { ...plan.gear, 'tube-bar': { ...plan.gear['tube-bar'], outsideMm: 80 } } as Plan['gear'];
  const { all } = partsOf({ ...plan, gear }, 'straight');
  expect(rowOf(all, 'joint-cross')).toMatchObject({ count: 8, mass: null, kind: 'clamp' });
});

test('bending a bar makes it another part of the same mass', () => {
  const plan = samplePlan();
  const bend = { radiusMm: 900, straightEndsMm: 80, side: 'left' } as const;
  const bent = runCommand(plan, { type: 'bendRack', setup: 'straight', rack: 'left', bend });
  if (!bent.ok) throw new Error(bent.refusal.code);
  const before = partsOf(plan, 'straight').all[0];
  const bars = partsOf(bent.plan, 'straight').all.filter(({ kind }) => kind === 'bar');
  const curved = bars.find((row) => row.bend !== null)!;
  expect(curved).toMatchObject({ label: 'Curved tube', count: 1, cutLength: 1000 });
  expect(curved.bend).toEqual({ radiusMm: 900, straightEndsMm: 80 });
  expect(curved.mass).toBe(before.mass);
});

test('ids are unique, and rows do not depend on the order of the pieces', () => {
  const plan = samplePlan();
  const uses = partUses(plan, 'straight');
  expect(new Set(uses.map(({ id }) => id)).size).toBe(uses.length);
  const turned = structuredClone(plan);
  turned.setups.straight.order.reverse();
  expect(partsOf(turned, 'straight').all).toEqual(partsOf(plan, 'straight').all);
  expect(partRows([...uses].reverse())).toEqual(partRows(uses));
});

test('an empty setup has no parts', () => {
  expect(partsOf(samplePlan(), 'empty')).toEqual({ units: [], all: [], knownMass: 0, unmeasured: 0 });
});

describe('parts weigh what the bodies weigh that are laid out from them: two ways through the program, every sample', () => {
  const folder = resolve(import.meta.dirname, '../../../samples');
  const files = readdirSync(folder).filter((name) => name.endsWith('.legroom.json'));
  test.each(files)('%s', (file) => {
    const read = readPlan(readFileSync(join(folder, file), 'utf8'));
    if (!read.ok) throw new Error(read.problem.sentence);
    for (const id of read.plan.order) {
      const { bodies } = layoutSetup(read.plan, id);
      const { units } = partsOf(read.plan, id);
      expect(units.length).toBeGreaterThan(0);
      for (const unit of units) {
        const own = bodies.filter(({ assembly, kind }) => assembly === unit.id && kind !== 'stageItem');
        const sum = own.reduce((total, { massKg }) => total + (massKg ?? 0), 0);
        expect(sum, `${id}, ${unit.id}`).toBeCloseTo(unit.knownMass, 9);
      }
    }
  });
});
