/** The sample plans are real plans: they read, write back the same bytes, and what is wrong with one is its point. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../src/checks/run.ts';
import { gearOf } from '../../src/gear/catalogue.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import { readPlan } from '../../src/plan/read.ts';
import type { Item, Plan, Setup } from '../../src/plan/schema.ts';
import { writePlan } from '../../src/plan/write.ts';

const folder = resolve(import.meta.dirname, '../../samples');
const files = readdirSync(folder).filter((name) => name.endsWith('.legroom.json'));
const textOf = (file: string) => readFileSync(join(folder, file), 'utf8');

function planOf(file: string): Plan {
  const read = readPlan(textOf(file));
  if (!read.ok) throw new Error(`${file}: ${read.problem.sentence}`);
  return read.plan;
}

const setups = files.flatMap((file) => {
  const plan = planOf(file);
  return plan.order.map((id) => ({ name: `${file}, ${plan.setups[id].name}`, file, plan, id, setup: plan.setups[id] }));
});

const checked = (plan: Plan, id: string) => runChecks(plan, id, layoutSetup(plan, id));
const items = (setup: Setup) => Object.values(setup.pieces).filter((piece): piece is Item => piece.kind === 'item');

/** Setups that are blocked on purpose, as their notes say: file and setup -> the checks that say so. */
const BLOCKED_ON_PURPOSE: Readonly<Record<string, readonly string[]>> = {
  'compact-one-up-two-down.legroom.json, Straight side racks': ['riserFit'],
};

test('there are at least six files', () => expect(files.length).toBeGreaterThanOrEqual(6));

test.each(files)('%s writes back the same bytes', (file) => expect(writePlan(planOf(file))).toBe(textOf(file)));

describe.each(setups)('$name', ({ name, plan, id, setup }) => {
  test('nothing is blocked but what its note says', () => {
    const blocked = checked(plan, id).findings.filter((finding) => finding.state === 'blocked');
    const allowed = BLOCKED_ON_PURPOSE[name] ?? [];
    const told = blocked.map(({ check, code, pieces, value, limit }) => ({ check, code, pieces, value, limit }));
    expect(told.filter(({ check }) => !allowed.includes(check))).toEqual([]);
    for (const check of allowed) expect(told.map((finding) => finding.check)).toContain(check);
  });

  test('layout has no problems of its own', () => expect(layoutSetup(plan, id).problems).toEqual([]));

  test('every drum and cymbal is held by something, or stands on legs of its own', () => {
    for (const piece of items(setup)) {
      const gear = gearOf(plan.gear, piece.gear)!;
      if (gear.kind === 'cymbal' || gear.kind === 'drum') expect(piece.mount, piece.name).not.toBeNull();
    }
  });
});

describe.each(['one-up-two-down.legroom.json', 'compact-one-up-two-down.legroom.json'])(
  '%s: straight against curved',
  (file) => {
    const plan = planOf(file);
    const { straight, curved } = plan.setups;

    test('the playing layout is the same, piece by piece', () => {
      const places = (setup: Setup) =>
        Object.fromEntries(items(setup).map((piece) => [piece.id, { gear: piece.gear, place: piece.place }]));
      expect(places(curved)).toEqual(places(straight));
      expect(curved.riser).toBe(straight.riser);
    });

    test('every bar keeps its cut length', () => {
      const cuts = (setup: Setup) =>
        Object.values(setup.pieces).flatMap((piece) =>
          piece.kind === 'rack'
            ? piece.spans.flatMap((span) => span.bars.map((bar) => [piece.id, bar.id, bar.cutLengthMm]))
            : [],
        );
      expect(cuts(curved)).toEqual(cuts(straight));
    });

    test('the curved racks take less floor, and the rear legs stand nearer to the centre line', () => {
      const area = (id: string) => checked(plan, id).readings.floorHullArea!;
      expect(area('curved')).toBeLessThan(area('straight'));
      const rearLegs = (id: string) =>
        Object.values(layoutSetup(plan, id).racks).map((rack) => Math.abs(rack.legs[rack.legs.length - 1].x));
      rearLegs('curved').forEach((x, i) => {
        expect(x).toBeLessThan(rearLegs('straight')[i]);
      });
    });
  },
);

test('the compact kit: no pose on its riser suits the straight racks, the curved ones stand within the margin', () => {
  const plan = planOf('compact-one-up-two-down.legroom.json');
  const readings = (id: string) => checked(plan, id).readings;
  expect(readings('straight').bestRiserPose?.margin).toBeLessThan(0);
  expect(readings('curved').riserMargin).toBeGreaterThanOrEqual(plan.risers['riser-6x6'].edgeMarginMm);
});

test('sixty pieces', () => expect(planOf('sixty-pieces.legroom.json').setups.festival.order.length).toBe(60));

test('the left-handed kit has its hi-hats on the right hand side of the player', () => {
  const { pieces } = planOf('left-handed-one-rack.legroom.json').setups['left-handed'];
  // The player faces the page's bottom, so the right hand is on the page's left.
  expect(pieces['hi-hats'].place.xMm).toBeLessThan(pieces.throne.place.xMm);
  expect(pieces['floor-tom-1'].place.xMm).toBeGreaterThan(pieces.throne.place.xMm);
});

test('the L-shaped riser is no rectangle, and something stands on its wing', () => {
  const plan = planOf('l-shaped-riser.legroom.json');
  expect(plan.risers['riser-l'].modules.length).toBe(3);
  const layout = layoutSetup(plan, 'straight-on-l');
  const onWing = layout.bodies.filter(
    ({ touchesFloor, shape }) =>
      touchesFloor && shape.core.kind === 'segment' && Math.min(shape.core.x0, shape.core.x1) < -1000,
  );
  expect(onWing.length).toBeGreaterThan(0);
});
