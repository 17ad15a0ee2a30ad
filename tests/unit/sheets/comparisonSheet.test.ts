import { describe, expect, test } from 'vitest';
import { comparedSetup } from '../../../src/checks/compare.ts';
import { differences } from '../../../src/checks/differences.ts';
import { sheetFonts } from '../../../src/cli/fonts.ts';
import { boxOfMark } from '../../../src/drawing/displayList.ts';
import { gearOf } from '../../../src/gear/catalogue.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { comparisonSheets, MOST_COMPARED } from '../../../src/sheets/comparisonSheet.ts';
import { overBases, SECOND } from '../../../src/sheets/overBases.ts';
import { measureWith } from '../../../src/sheets/page.ts';
import { SCALES } from '../../../src/sheets/scaleBar.ts';
import type { SheetOptions } from '../../../src/sheets/sheet.ts';
import { toSvg } from '../../../src/sheets/svg.ts';
import { partDifferenceWords } from '../../../src/words/differenceWords.ts';
import { bestOf, READING_ROWS, type SetupReadings } from '../../../src/words/readingRows.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';
import { outsideFrame, textsOf, textsOnTexts } from '../../fixtures/sheetLaws.ts';

const fonts = sheetFonts();
const measure = measureWith(fonts);
const samples = sampleSetups();

/** The plan with a second setup beside one: the same, but for its first drum, which stands 100 mm over and 30 mm higher. */
function withMoved(plan: Plan, id: string): Plan {
  const setup = plan.setups[id];
  const drum = setup.order.find((one) => {
    const piece = setup.pieces[one];
    return (
      piece.kind === 'item' && piece.place.heightMm !== undefined && gearOf(plan.gear, piece.gear)?.kind === 'drum'
    );
  })!;
  const piece = setup.pieces[drum];
  const place = { ...piece.place, xMm: piece.place.xMm + 100, heightMm: piece.place.heightMm! + 30 };
  const moved = {
    ...setup,
    id: 'moved',
    name: 'One drum moved',
    pieces: { ...setup.pieces, [drum]: { ...piece, place } },
  };
  return { ...plan, setups: { ...plan.setups, moved }, order: [...plan.order, 'moved'] };
}

const cases = samples.flatMap(({ name, plan, id }) =>
  (['a4', 'letter'] as const).flatMap((paper) => {
    const two = { name: `${name} on ${paper}`, plan: withMoved(plan, id), ids: [id, 'moved'], paper };
    // A plan's own setups, once, at the first of them.
    const own =
      plan.order[0] === id && plan.order.length > 1
        ? [{ ...two, name: `${name}, all, on ${paper}`, plan, ids: plan.order.slice(0, MOST_COMPARED) }]
        : [];
    return [two, ...own];
  }),
);

const pagesOf = (plan: Plan, ids: readonly string[], paper: 'a4' | 'letter', turned?: SheetOptions['turned']) =>
  comparisonSheets(plan, ids, { paper, date: '2026-03-14', fonts, turned });

const wordsOf = (sheets: ReturnType<typeof pagesOf>) => sheets.flatMap(textsOf).map(({ text }) => text);

describe.each(cases)('$name', ({ plan, ids, paper }) => {
  const sheets = pagesOf(plan, ids, paper);

  test('everything lies within the frame, and no text on another', () => {
    expect(sheets.length).toBeLessThanOrEqual(3);
    for (const sheet of sheets) {
      expect(outsideFrame(sheet, measure)).toEqual([]);
      expect(textsOnTexts(sheet, measure)).toEqual([]);
    }
  });

  test('pictures stand side by side at one scale of the standard, centre lines in step', () => {
    const scale = textsOf(sheets[0]).find(({ text }) => /^1:\d+$/.test(text))!.text;
    expect(SCALES).toContain(Number(scale.slice(2)));
    const xs = sheets[0].marks.filter(({ title }) => title === 'Centre line').map((mark) => boxOfMark(mark).minX);
    expect(xs).toHaveLength(ids.length);
    const steps = xs.slice(1).map((x, k) => x - xs[k]);
    for (const step of steps) expect(step).toBeCloseTo(steps[0], 6);
    for (const [k, id] of ids.entries()) expect(wordsOf(sheets)).toContain(`${k + 1}  ${plan.setups[id].name}`);
  });

  test('parts that differ are listed as the differences have them', () => {
    const words = wordsOf(sheets).join('\n');
    for (const to of ids.slice(1)) {
      const { partsAdded, partsRemoved } = differences(plan, ids[0], to);
      for (const part of [...partsAdded, ...partsRemoved])
        expect(words).toContain(partDifferenceWords(part, plan).split(' ').slice(0, 2).join(' '));
    }
  });
});

describe('what differs', () => {
  const { plan, id } = samples.find(({ name }) => name.startsWith('one-up'))!;
  const ids = plan.order.slice(0, 2);

  test('a moved drum is no longer the same playing layout: said first, and by how much', () => {
    const metric: Plan = { ...withMoved(plan, id), units: 'mm' };
    const words = wordsOf(pagesOf(metric, [id, 'moved'], 'a4'));
    const { playing } = differences(metric, id, 'moved');
    const name = metric.setups[id].pieces[playing[0]].name;
    expect(words).toContain(`Same playing layout: no. It differs in ${name}.`);
    expect(words.some((text) => text.startsWith(`${name}: moved 100 mm`) && text.includes('30 mm higher'))).toBe(true);
  });

  test('other racks under the same drums are', () => {
    const words = wordsOf(pagesOf(plan, ids, 'a4'));
    expect(words).toContain('Same playing layout: yes.');
  });

  test('the same plan gives the same bytes', () => {
    const bytes = () => pagesOf(plan, ids, 'letter').map((sheet) => toSvg(sheet));
    expect(bytes()).toEqual(bytes());
  });

  test('upright when asked for', () => {
    for (const sheet of pagesOf(plan, ids, 'a4', 'upright')) {
      expect([sheet.widthMm, sheet.heightMm]).toEqual([210, 297]);
      expect(outsideFrame(sheet, measure)).toEqual([]);
      expect(textsOnTexts(sheet, measure)).toEqual([]);
    }
  });
});

describe('the bases over each other', () => {
  const { plan } = samples.find(({ name }) => name.startsWith('one-up'))!;
  const [straight, curved] = plan.order.slice(0, 2).map((id) => comparedSetup(plan, id));
  const dashed = (marks: ReturnType<typeof overBases>['marks']) => marks.filter(({ line }) => line === SECOND);

  test('the second is dashed where it differs, and only there', () => {
    const bars = Object.values(curved.layout.racks).reduce((sum, { bars: own }) => sum + own.length, 0);
    const found = dashed(overBases(straight, curved, [], { scale: 20, measure }).marks);
    const arcs = found.filter(
      (mark) =>
        mark.kind === 'path' &&
        mark.chains.some(({ pieces }) => pieces.filter((p) => p.kind !== 'segment' && p.r > 500).length >= 2),
    );
    expect(arcs).toHaveLength(bars);
    expect(dashed(overBases(straight, straight, [], { scale: 20, measure }).marks)).toEqual([]);
  });

  test('every rack of both has its number', () => {
    const within = { minX: -3000, minY: -3000, maxX: 3000, maxY: 3000 };
    const { marks } = overBases(straight, curved, [], { scale: 20, measure, within });
    const numbers = marks.flatMap((mark) => (mark.kind === 'text' && mark.layer === 'findings' ? [mark.text] : []));
    const racks = (setup: typeof straight) => Object.keys(setup.layout.racks).length;
    expect(numbers.filter((text) => text === '1')).toHaveLength(racks(straight));
    expect(numbers.filter((text) => text === '2')).toHaveLength(racks(curved));
  });
});

describe('the best of a row', () => {
  const { plan } = samples[0];
  const floor = READING_ROWS.find(({ key }) => key === 'floor')!;
  const margin = READING_ROWS.find(({ key }) => key === 'margin')!;
  const pieces = READING_ROWS.find(({ key }) => key === 'pieces')!;
  const readings = (floorHullArea: number | null, riserMargin: number | null = null): SetupReadings => ({
    floorHullArea,
    shadowArea: null,
    extent: null,
    smallestRectangle: null,
    riserMargin,
    pieceCount: floorHullArea ?? 0,
  });

  test.each([
    ['the least floor', floor, [readings(3), readings(2), readings(2.5)], [false, true, false]],
    ['the most margin', margin, [readings(1, 50), readings(1, -20)], [true, false]],
    ['two that tie above a third', floor, [readings(2), readings(2), readings(3)], [true, true, false]],
    ['nothing where all are the same', floor, [readings(2), readings(2)], [false, false]],
    ['nothing against what is not measured', floor, [readings(2), readings(null)], [false, false]],
    ['nothing where neither way is better', pieces, [readings(1), readings(2)], [false, false]],
  ] as const)('%s', (_, row, all, best) => expect(bestOf(row, all, plan.units)).toEqual(best));
});

describe('edges', () => {
  const { plan } = samples.find(({ name }) => name.startsWith('one-up'))!;
  const [id] = plan.order;
  const setup = plan.setups[id];
  const checkedPages = (other: Partial<Plan['setups'][string]>, first: Partial<Plan['setups'][string]> = {}) => {
    const setups = { a: { ...setup, ...first, id: 'a' }, b: { ...setup, ...other, id: 'b' } };
    const sheets = pagesOf({ ...plan, setups, order: ['a', 'b'] }, ['a', 'b'], 'a4');
    for (const sheet of sheets) {
      expect(outsideFrame(sheet, measure)).toEqual([]);
      expect(textsOnTexts(sheet, measure)).toEqual([]);
    }
    return wordsOf(sheets);
  };

  test('two empty setups play the same, and nothing has a best', () => {
    const empty = { pieces: {}, order: [], riser: null };
    expect(checkedPages(empty, empty)).toContain('Same playing layout: yes.');
  });

  test('against an empty one every piece and part was added', () => {
    const words = checkedPages({}, { pieces: {}, order: [] });
    expect(words.filter((text) => text.endsWith(': added'))).toHaveLength(setup.order.length);
  });

  test('long names are cut, not spilled', () => {
    const pieces = Object.fromEntries(
      Object.entries(setup.pieces).map(([one, piece]) => [
        one,
        { ...piece, name: `${'M'.repeat(80)} ${one}`, place: { ...piece.place, xMm: piece.place.xMm + 50 } },
      ]),
    );
    expect(checkedPages({ name: 'W'.repeat(120), pieces }).length).toBeGreaterThan(50);
  });

  test('with another riser, and with none', () => {
    expect(checkedPages({ riser: null })).toContain('Riser margin');
  });
});

test.each([
  ['one alone', (ids: readonly string[]) => ids.slice(0, 1), /two to 4/],
  ['five', (ids: readonly string[]) => [...ids, 'a', 'b', 'c'], /5 were given/],
  ['one twice', (ids: readonly string[]) => [ids[0], ids[0]], /with itself/],
  ['one that is not there', (ids: readonly string[]) => [ids[0], 'constructor'], /no setup/],
] as const)('%s is refused in words', (_, choose, sentence) => {
  const { plan } = samples.find(({ name }) => name.startsWith('one-up'))!;
  expect(() => pagesOf(plan, choose(plan.order.slice(0, 2)), 'a4')).toThrow(sentence);
});
