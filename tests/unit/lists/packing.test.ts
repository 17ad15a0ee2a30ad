import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { partLoads, partsOf } from '../../../src/checks/parts.ts';
import { runChecks } from '../../../src/checks/run.ts';
import { sheetFonts } from '../../../src/cli/fonts.ts';
import { UNIT_KINDS } from '../../../src/gear/kinds.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { type PullList, pullList, type Stock } from '../../../src/lists/packing.ts';
import { type Inventory, newInventory, readInventory } from '../../../src/plan/inventory.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { measureWith } from '../../../src/sheets/page.ts';
import { pullCsv } from '../../../src/sheets/pullCsv.ts';
import { pullSheets } from '../../../src/sheets/pullSheet.ts';
import { toSvg } from '../../../src/sheets/svg.ts';
import { buildFrom } from '../../../src/solve/buildFrom.ts';
import { checkedOf, layoutOf, sampleSetups } from '../../fixtures/samplePlans.ts';
import { outsideFrame, textsOf, textsOnTexts } from '../../fixtures/sheetLaws.ts';

const fonts = sheetFonts();
const measure = measureWith(fonts);
const samples = sampleSetups();

function listOf(plan: Plan, id: string, stock: Stock | null = null): PullList {
  const layout = layoutOf(plan, id);
  return pullList(plan, id, layout, checkedOf(plan, id), stock);
}

function stockOf(plan: Plan, id: string, inventory: Inventory): Stock {
  return { inventory, answer: buildFrom(plan, id, layoutOf(plan, id), inventory) };
}

function sheetsOf(plan: Plan, id: string, paper: 'a4' | 'letter', stock: Stock | null = null) {
  const layout = layoutOf(plan, id);
  return pullSheets(plan, id, layout, checkedOf(plan, id), { paper, date: '2026-03-14', fonts, stock });
}

describe.each(samples)('$name', ({ plan, id }) => {
  const list = listOf(plan, id);
  const parts = partsOf(plan, id);

  test('units and sums are those of the parts list', () => {
    expect([...list.units].map((unit) => unit.id).sort()).toEqual(
      partLoads(plan, id)
        .map((load) => load.id)
        .sort(),
    );
    expect(list.units.map(({ number }) => number)).toEqual(list.units.map((_, k) => k + 1));
    const mass = list.units.reduce((sum, unit) => sum + unit.knownMass, 0);
    expect(mass).toBeCloseTo(parts.knownMass, 9);
    expect(list.partCount).toBe(parts.all.reduce((sum, { count }) => sum + count, 0));
    expect(list.unmeasured).toBe(list.units.reduce((sum, unit) => sum + unit.unmeasured, 0));
  });

  test('kinds come in their order, racks by mass', () => {
    const ranks = list.units.map(({ kind }) => UNIT_KINDS.indexOf(kind));
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
    const racks = list.units.filter(({ kind }) => kind === 'rack').map(({ knownMass }) => knownMass);
    expect(racks).toEqual([...racks].sort((a, b) => b - a));
  });

  test('what is lifted by how many agrees with the findings', () => {
    const { findings } = checkedOf(plan, id);
    const heavy = (code: string) => findings.filter((finding) => finding.code === code).map(({ pieces }) => pieces[0]);
    const by = (hands: string) => list.units.filter(({ lift }) => lift?.hands === hands).map((unit) => unit.id);
    expect(by('two').sort()).toEqual(heavy('lift_with_two').sort());
    expect(by('takeApart').sort()).toEqual(heavy('take_apart').sort());
  });

  test('cuts are every bar and upright, and their lengths add up', () => {
    const tubes = parts.all.filter(({ kind }) => kind === 'bar' || kind === 'upright');
    const count = list.cuts.reduce((sum, cut) => sum + cut.count, 0);
    const total = list.cuts.reduce((sum, cut) => sum + cut.totalMm, 0);
    expect(count).toBe(tubes.reduce((sum, tube) => sum + tube.count, 0));
    expect(total).toBeCloseTo(
      tubes.reduce((sum, tube) => sum + tube.count * (tube.cutLength ?? 0), 0),
      6,
    );
  });
});

const papers = samples.flatMap(({ name, plan, id }) =>
  (['a4', 'letter'] as const).map((paper) => ({ name: `${name} on ${paper}`, plan, id, paper })),
);

describe.each(papers)('$name', ({ plan, id, paper }) => {
  const read = readInventory(readFileSync('samples/rehearsal-room.legroom-stock.json', 'utf8'), plan.gear);
  if (!read.ok) throw new Error(read.problem.sentence);
  const priced: Plan = {
    ...plan,
    currency: 'EUR',
    partNotes: { 'clamp-arm': { price: 24.5, note: `Long wing bolts. ${'Look at the thread first. '.repeat(12)}` } },
  };
  const all = [sheetsOf(plan, id, paper), sheetsOf(priced, id, paper, stockOf(priced, id, read.inventory))];

  test('everything lies within the frame, and no text on another', () => {
    for (const sheet of all.flat()) {
      expect(outsideFrame(sheet, measure)).toEqual([]);
      expect(textsOnTexts(sheet, measure)).toEqual([]);
    }
  });

  test('every unit has its number on the small plan and at its head, every row two boxes to tick', () => {
    const list = listOf(plan, id);
    const [sheets] = all;
    const words = sheets.flatMap(textsOf).map(({ text }) => text);
    const flags = textsOf(sheets[0]).filter(({ layer }) => layer === 'findings');
    expect(flags.map(({ text }) => text).sort()).toEqual(list.units.map(({ number }) => String(number)).sort());
    expect(words.filter((text) => text === 'continued').length).toBeLessThan(sheets.length);
    const boxes = sheets.flatMap(({ marks }) =>
      marks.filter((mark) => mark.kind === 'path' && mark.layer === 'frame' && mark.tint === 'paper' && mark.line),
    );
    const rows = list.units.reduce((sum, unit) => sum + unit.rows.length + 1, 0);
    expect(boxes).toHaveLength(2 * rows);
    expect(words.join(' ')).toContain('Cut tube ends are sharp');
    expect(words.join(' ')).toContain('Local codes');
  });

  test('the same plan gives the same bytes', () =>
    expect(sheetsOf(plan, id, paper).map((sheet) => toSvg(sheet))).toEqual(all[0].map((sheet) => toSvg(sheet))));
});

describe('owned and missing', () => {
  const { plan, id } = samples.find(({ name }) => name.startsWith('one-up'))!;
  const parts = partsOf(plan, id);

  test('with nothing owned everything is missing', () => {
    const list = listOf(plan, id, stockOf(plan, id, newInventory('Nothing')));
    expect(list.missing).toBe(list.partCount);
    for (const { rows } of list.units)
      for (const { owned, missing, part } of rows) expect([owned, missing]).toEqual([0, part.count]);
  });

  test('with everything owned nothing is', () => {
    const owned = parts.all.map(({ gear, count, cutLength, bend, kind }) =>
      kind === 'bar' || kind === 'upright' ? { gear, count, cutLengthMm: cutLength!, bend } : { gear, count },
    );
    const list = listOf(plan, id, stockOf(plan, id, { ...newInventory('All'), parts: owned }));
    expect(list.missing).toBe(0);
    expect(list.units.flatMap(({ rows }) => rows.flatMap(({ instead }) => instead))).toEqual([]);
  });

  test('a tube that must be cut says so, and how many', () => {
    const owned = [{ gear: 'tube-straight-60in', count: 1 }];
    const list = listOf(plan, id, stockOf(plan, id, { ...newInventory('A long one'), parts: owned }));
    const instead = list.units.flatMap(({ rows }) => rows.flatMap((row) => row.instead));
    expect(instead).toHaveLength(1);
    expect(instead[0]).toMatchObject({ count: 1, name: 'Straight tube 60 in' });
    expect(instead[0].cutToMm).toBeGreaterThan(0);
    expect(list.missing).toBe(list.partCount - 1);
  });

  test('without a stock list nothing is said of it', () => {
    const list = listOf(plan, id);
    expect([list.missing, list.units[0].rows[0].owned]).toEqual([null, null]);
    expect(
      sheetsOf(plan, id, 'a4')
        .flatMap(textsOf)
        .map(({ text }) => text),
    ).not.toContain('Owned');
  });
});

describe('prices', () => {
  const { plan, id } = samples.find(({ name }) => name.startsWith('one-up'))!;
  const inventory = { ...newInventory('Stock'), currency: 'EUR', parts: [{ gear: 'clamp-leg', count: 0, price: 22 }] };
  const clamps = partsOf(plan, id).all.find(({ gear }) => gear === 'clamp-arm')!.count;
  const joints = partsOf(plan, id).all.find(({ gear }) => gear === 'clamp-leg')!.count;

  test('the plan’s own, for one and for all', () => {
    const list = listOf({ ...plan, currency: 'EUR', partNotes: { 'clamp-arm': { price: 24.5 } } }, id);
    expect(list.price).toBeCloseTo(24.5 * clamps, 9);
    expect(list.unpriced).toBe(list.partCount - clamps);
  });

  test('a stock list’s count only in the same currency', () => {
    const of = (currency: string | undefined) => listOf({ ...plan, currency }, id, stockOf(plan, id, inventory)).price;
    expect([of('EUR'), of('USD'), of(undefined)]).toEqual([22 * joints, 0, 22 * joints]);
  });
});

describe('loading in', () => {
  const { plan, id } = samples.find(({ name }) => name.startsWith('sixty'))!;

  test('with no ring round the throne, what is farthest from upstage comes first', () => {
    const setup = plan.setups[id];
    const order = ['hi-hat-stand', 'snare-stand', 'throne'];
    const at = (y: number, piece: string) => ({
      ...setup.pieces[piece],
      mount: null,
      place: { ...setup.pieces[piece].place, xMm: 0, yMm: y },
    });
    const numbers = (hat: number, snare: number) => {
      const pieces = {
        'hi-hat-stand': at(hat, order[0]),
        'snare-stand': at(snare, order[1]),
        throne: at(900, order[2]),
      };
      const bare = { ...plan, setups: { [id]: { ...setup, order, pieces } }, order: [id] } as Plan;
      return listOf(bare, id).units.map((unit) => unit.id);
    };
    expect(numbers(-2000, 0)).toEqual(['hi-hat-stand', 'snare-stand', 'throne']);
    expect(numbers(0, -2000)).toEqual(['snare-stand', 'hi-hat-stand', 'throne']);
  });
});

describe('edges', () => {
  test('an empty setup gives one page, and a table of titles alone', () => {
    const plan = newPlan('Nothing yet');
    const [id] = plan.order;
    const layout = layoutOf(plan, id);
    expect(sheetsOf(plan, id, 'a4')).toHaveLength(1);
    expect(pullCsv(plan, id, layout, checkedOf(plan, id)).trim().split('\r\n')).toHaveLength(1);
  });

  test('many units, long names and the longest notes stay within the frame', () => {
    const { plan, id } = samples.find(({ name }) => name.startsWith('one-up'))!;
    const setup = plan.setups[id];
    const stand = setup.pieces['snare-stand'];
    const ids = Array.from({ length: 40 }, (_, k) => `stand-${k}`);
    const pieces = Object.fromEntries(
      ids.map((one, k) => {
        const place = { ...stand.place, xMm: (k % 8) * 700, yMm: Math.floor(k / 8) * 700 };
        // Few of them with the note: its lines take their time to be broken.
        const gear = k % 12 === 0 ? { gear: 'stand-snare-small' } : {};
        return [one, { ...stand, ...gear, id: one, name: `Stand ${'W'.repeat(100)} ${k}`, place }];
      }),
    );
    const notes = { 'stand-snare-small': { price: 123456.5, note: 'Ωμέγα! '.repeat(560) } };
    const crowded: Plan = {
      ...plan,
      partNotes: notes,
      setups: {
        [id]: {
          ...setup,
          name: 'N'.repeat(120),
          pieces: { ...setup.pieces, ...pieces },
          order: [...setup.order, ...ids],
        },
      },
      order: [id],
    };
    const sheets = sheetsOf(crowded, id, 'letter', stockOf(crowded, id, newInventory('S'.repeat(120))));
    expect(sheets.length).toBeGreaterThan(4);
    for (const sheet of sheets) {
      expect(outsideFrame(sheet, measure)).toEqual([]);
      expect(textsOnTexts(sheet, measure)).toEqual([]);
    }
  });

  test('a setup that the plan does not have is refused', () => {
    const plan = newPlan('Plan');
    const layout = layoutSetup(plan, plan.order[0]);
    expect(() => pullList(plan, 'constructor', layout, runChecks(plan, plan.order[0], layout))).toThrow(/no setup/);
  });

  test('a unit that nobody weighed is not called light', () => {
    const { plan, id } = samples.find(({ name }) => name.startsWith('one-up'))!;
    const unknown = { ...plan, gear: { ...plan.gear, ...unweighed(plan, id) } };
    const throne = listOf(unknown, id).units.find(({ kind }) => kind === 'throne')!;
    expect([throne.unmeasured, throne.knownMass, throne.lift]).toEqual([1, 0, null]);
    const words = sheetsOf(unknown, id, 'a4')
      .flatMap(textsOf)
      .map(({ text }) => text);
    expect(words).toContain('not weighed');
  });
});

/** The throne of a setup, its mass taken away. */
function unweighed(plan: Plan, id: string): Plan['gear'] {
  const row = partsOf(plan, id).all.find(({ kind }) => kind === 'throne')!;
  const gear = {
    kind: 'throne',
    id: row.gear,
    name: 'Throne',
    massKg: null,
    seat: 'round',
    widthMm: 340,
    depthMm: 340,
    baseRadiusMm: 260,
    heightMm: [480, 650],
  } as const;
  return { [row.gear]: { ...gear, heightMm: [...gear.heightMm] as [number, number] } };
}
