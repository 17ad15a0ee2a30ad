/** The gear drawer: what is found, what a new piece is, where it stands. */
import { describe, expect, test } from 'vitest';
import { freePlace } from '../../../src/editor/panels/gear/freePlace.ts';
import { freeId, freeName, newItem, newRack, RACK_FORMS } from '../../../src/editor/panels/gear/newPiece.ts';
import { allGear, shelves, sizeText } from '../../../src/editor/panels/gear/shelf.ts';
import { CATALOGUE } from '../../../src/gear/catalogue.ts';
import { isPlaceable, type Placeable, placedKind } from '../../../src/gear/kinds.ts';
import { gapValue } from '../../../src/geometry/gap.ts';
import { disc } from '../../../src/geometry/shapes.ts';
import type { Body } from '../../../src/layout/body.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { rackFrame } from '../../../src/plan/rackFrame.ts';
import { runCommand } from '../../../src/plan/run.ts';

const found = (query: string) => shelves(CATALOGUE, query).flatMap((shelf) => shelf.gear.map(({ id }) => id));

describe('search', () => {
  test('with no words everything that can be placed is there, once', () => {
    const all = found('');
    expect(new Set(all).size).toBe(all.length);
    expect([...all].sort()).toEqual(
      CATALOGUE.filter(isPlaceable)
        .map(({ id }) => id)
        .sort(),
    );
  });

  test('every word must be there, in any order, whatever the case', () => {
    expect(found('SNARE 14')).toEqual(found('14 snare'));
    expect(found('14 snare')).toContain('snare-14x5.5');
    expect(found('14 snare')).not.toContain('crash-14');
  });

  test('shelves stand in the order of setting up', () => {
    const names = shelves(CATALOGUE, '').map(({ name }) => name);
    expect(names.slice(0, 4)).toEqual(['Bass drums', 'Snares', 'Toms', 'Floor toms']);
    expect(names.at(-1)).toBe('On the stage');
  });

  test('parts of racks and mounts are not for the drawing', () => {
    expect(found('clamp')).toEqual([]);
    expect(found('tube')).toEqual([]);
  });

  test('nothing found is nothing, not everything', () => expect(found('xylophone')).toEqual([]));

  test('the plan’s own entry stands in for the catalogue’s', () => {
    const typical = CATALOGUE.find(({ id }) => id === 'crash-16')!;
    const own = { ...typical, name: 'Measured crash' };
    const all = allGear({ [own.id]: own }, CATALOGUE);
    expect(all.filter(({ id }) => id === 'crash-16')).toEqual([own]);
    expect(all).toHaveLength(CATALOGUE.length);
  });
});

test.each([
  ['mm', '⌀ 406.4 mm'],
  ['in', '⌀ 16"'],
] as const)('sizes are told in the user’s unit: %s', (units, text) => {
  expect(sizeText(CATALOGUE.find(({ id }) => id === 'crash-16')!, units)).toBe(text);
});

describe('new pieces', () => {
  test('names and ids are free ones', () => {
    expect(freeName('Tom', ['Tom', 'Tom 2'])).toBe('Tom 3');
    expect(freeId('tom', ['tom'])).toBe('tom-2');
    expect(freeId('tom', [])).toBe('tom');
  });

  test.each(CATALOGUE.filter(isPlaceable).map((gear) => [gear.id, gear] as const))(
    'the plan takes a new %s, twice',
    (_, gear) => {
      const plan = newPlan('Kit');
      const first = newItem(gear, 100, 200, {});
      const once = runCommand(plan, { type: 'addPiece', setup: 'setup-1', piece: first });
      if (!once.ok) throw new Error(JSON.stringify(once.refusal));
      const second = newItem(gear, 100, 200, once.plan.setups['setup-1'].pieces);
      const twice = runCommand(once.plan, { type: 'addPiece', setup: 'setup-1', piece: second });
      expect(twice.ok).toBe(true);
      expect(second.name).toBe(`${first.name} 2`);
    },
  );

  test.each(RACK_FORMS.map(({ id }) => [id] as const))('the plan takes a new rack, %s, and it stands', (form) => {
    const rack = newRack(form, CATALOGUE, 0, 0, {})!;
    const added = runCommand(newPlan('Kit'), { type: 'addPiece', setup: 'setup-1', piece: rack });
    expect(added.ok).toBe(true);
    const frame = rackFrame(rack);
    expect(frame.problems).toEqual([]);
    expect(frame.legs).toHaveLength(form === 'frontThreeLegs' ? 3 : 2);
    // Its bars lie below its legs' tops.
    for (const bar of frame.bars) expect(bar.heightMm).toBeLessThan(Math.min(...rack.legs.map((leg) => leg.lengthMm)));
    // Its middle is about where it was wanted: within a foot's length.
    const middleX = frame.legs.reduce((sum, { x }) => sum + x, 0) / frame.legs.length;
    const middleY = frame.legs.reduce((sum, { y }) => sum + y, 0) / frame.legs.length;
    expect(Math.hypot(middleX, middleY)).toBeLessThan(300);
    expect(rack.spans.some(({ bars }) => bars[0].bend !== null)).toBe(form === 'sideCurved');
  });

  test('without tubes there is no rack', () => expect(newRack('sideStraight', [], 0, 0, {})).toBeNull());
});

describe('a free place', () => {
  const body = (x: number, y: number, r: number) => ({ shape: disc(x, y, r) }) as Body;

  test('nothing about: just there', () => expect(freePlace([], 120.4, -30, 200)).toEqual([120, -30]));

  test('beside what stands there, without touching it, and near', () => {
    const bodies = [body(0, 0, 300), body(0, 700, 250)];
    const [x, y] = freePlace(bodies, 0, 0, 180);
    for (const { shape } of bodies) expect(gapValue(disc(x, y, 180), shape)).toBeGreaterThan(0);
    // 300 + 180 + 30 of air, and at most one ring further.
    expect(Math.hypot(x, y)).toBeLessThanOrEqual(610);
  });

  test('all taken: there all the same, rather than out of sight', () => {
    expect(freePlace([body(0, 0, 10_000)], 5, 5, 100)).toEqual([5, 5]);
  });

  test('a piece’s reach covers its farthest point', () => {
    const bass = CATALOGUE.find(({ id }) => id === 'bass-22x18')!;
    expect(placedKind(bass as Placeable).reachMm(bass as Placeable)).toBeCloseTo(
      Math.hypot(22 * 25.4, 18 * 25.4) / 2,
      6,
    );
  });
});
