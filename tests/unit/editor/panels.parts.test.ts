/** Parts in words, and a stock list as the page changes it. Counts and masses are worked by hand from a small list. */
import { describe, expect, test } from 'vitest';
import { type PartRow, type Parts, partsOf } from '../../../src/checks/parts.ts';
import { cutText, massText, NOT_WEIGHED, partsText, sumText } from '../../../src/editor/panels/parts/partsText.ts';
import { addPart, removePart, setPart, withNeeds } from '../../../src/editor/panels/parts/stockEdits.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { newInventory, readInventory, writeInventory } from '../../../src/plan/inventory.ts';
import { buildFrom } from '../../../src/solve/buildFrom.ts';
import { buildWords } from '../../../src/words/buildWords.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';

const row = (part: Partial<PartRow>): PartRow => ({
  kind: 'bar',
  gear: 'tube-bar',
  label: 'Straight tube',
  count: 1,
  cutLength: null,
  bend: null,
  mass: null,
  totalMass: null,
  massFrom: 'unmeasured',
  ...part,
});

describe('parts in words', () => {
  const plan = samplePlan();

  test('a cut length, a bend, a mass, and what nobody weighed', () => {
    expect(cutText(row({ cutLength: 1000 }), plan)).toBe('1000 mm');
    expect(cutText(row({ cutLength: 1168, bend: { radiusMm: 750, straightEndsMm: 100 } }), plan)).toBe(
      '1168 mm, bent to 750 mm',
    );
    expect(massText(row({ totalMass: 2.44 }), plan)).toBe('2.4 kg');
    expect(massText(row({}), plan)).toBe(NOT_WEIGHED);
    expect(massText(row({ kind: 'endCap' }), plan)).toBe('');
    expect(sumText({ knownMass: 12, unmeasured: 0 }, plan)).toBe('12 kg');
    expect(sumText({ knownMass: 12, unmeasured: 1 }, plan)).toBe('12 kg, and 1 part not weighed');
  });

  test('as text: every unit with its parts, then the sum', () => {
    const bar = row({ cutLength: 1000, count: 2, totalMass: 3, mass: 1.5 });
    const clamp = row({ kind: 'clamp', label: 'Clamp', gear: 'c', count: 3 });
    const parts: Parts = {
      units: [{ id: 'left', pieces: ['left'], parts: [bar, clamp], knownMass: 3, unmeasured: 3 }],
      all: [bar, clamp],
      knownMass: 3,
      unmeasured: 3,
    };
    expect(partsText(plan, 'straight', parts).split('\n')).toEqual([
      'Test plan, Straight racks: parts',
      '',
      'Left rack (3 kg, and 3 parts not weighed)',
      '  2 x Straight tube; 1000 mm; 3 kg',
      '  3 x Clamp; not weighed',
      '',
      'Together: 5 parts, 3 kg, and 3 parts not weighed',
    ]);
  });
});

describe('a stock list', () => {
  const empty = newInventory('Mine');

  test('lines are added, counted and taken away; the list before stays as it was', () => {
    const one = addPart(empty, 'clamp-arm');
    const two = setPart(addPart(one, 'clamp-cross'), 0, { count: 7 });
    expect(two.parts).toEqual([
      { gear: 'clamp-arm', count: 7 },
      { gear: 'clamp-cross', count: 1 },
    ]);
    expect(removePart(two, 0).parts).toEqual([{ gear: 'clamp-cross', count: 1 }]);
    expect(one.parts).toEqual([{ gear: 'clamp-arm', count: 1 }]);
    expect(empty.parts).toEqual([]);
  });

  test('needs are taken in once: what is listed already is only raised to what is needed', () => {
    const plan = samplePlan();
    const { all } = partsOf(plan, 'straight');
    const once = withNeeds(empty, all, plan.gear);
    expect(withNeeds(once, all, plan.gear)).toEqual(once);
    const more = setPart(once, 0, { count: once.parts[0].count + 5 });
    expect(withNeeds(more, all, plan.gear).parts[0].count).toBe(more.parts[0].count);
    const fewer = setPart(once, 0, { count: 0 });
    expect(withNeeds(fewer, all, plan.gear).parts).toEqual(once.parts);
  });

  test.each(sampleSetups().map(({ name, plan, id }) => [name, plan, id] as const))(
    '%s: who owns all of it can build it; without one clamp it is named as missing',
    (_, plan, id) => {
      const stock = withNeeds(empty, partsOf(plan, id).all, plan.gear);
      // It is a file that any plan reads.
      const read = readInventory(writeInventory(stock));
      expect(read.ok).toBe(true);
      const layout = layoutSetup(plan, id);
      const words = buildWords(plan, id, stock, buildFrom(plan, id, layout, stock));
      expect(words.verdict).toBe('It can be built: nothing is missing.');
      expect(words.missing).toEqual([]);
      const at = stock.parts.findIndex(({ gear }) => gear === 'clamp-cross');
      if (at < 0) return;
      const short = setPart(stock, at, { count: stock.parts[at].count - 1 });
      const less = buildWords(plan, id, short, buildFrom(plan, id, layout, short));
      expect(less.verdict).toMatch(/^It cannot be built: 1 of \d+ parts are missing\.$/);
      expect(less.missing).toHaveLength(1);
      expect(less.toBuy).toHaveLength(1);
    },
  );
});
