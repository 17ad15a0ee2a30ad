import { describe, expect, test } from 'vitest';
import { markPlan } from '../../../src/checks/marks/markPlan.ts';
import { sheetFonts } from '../../../src/cli/fonts.ts';
import { boxOfMark, type Mark, type TextMark } from '../../../src/drawing/displayList.ts';
import { kept } from '../../../src/keep.ts';
import { type Layout, layoutSetup } from '../../../src/layout/layout.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { measureWith } from '../../../src/sheets/page.ts';
import type { Sheet } from '../../../src/sheets/sheet.ts';
import { templateSheets } from '../../../src/sheets/template.ts';
import { templateOf } from '../../../src/sheets/templateShapes.ts';
import { layoutOf, sampleSetups } from '../../fixtures/samplePlans.ts';
import { some } from '../../fixtures/seeds.ts';
import { outsideFrame, textsOnTexts } from '../../fixtures/sheetLaws.ts';

const fonts = sheetFonts();
const measure = measureWith(fonts);
const options = { paper: 'a4', date: '2026-11-28', fonts } as const;

const isText = (mark: Mark): mark is TextMark => mark.kind === 'text';
const lengthOf = (mark: Mark): number =>
  mark.kind !== 'path'
    ? 0
    : mark.chains
        .flatMap(({ pieces }) => pieces)
        .reduce(
          (sum, p) => sum + (p.kind === 'segment' ? Math.hypot(p.x1 - p.x0, p.y1 - p.y0) : p.r * Math.abs(p.sweep)),
          0,
        );

/** What a page says of its two crosses: u and v in mm, for plans in mm. */
function saidPlaces(sheet: Sheet): [number, number][] {
  return sheet.marks.filter(isText).flatMap(({ text }): [number, number][] => {
    const match = /^(?:(\d+) stage (left|right)|on it), (\d+)( downstage)? from the front$/.exec(text);
    if (!match) return [];
    const u = match[1] === undefined ? 0 : Number(match[1]) * (match[2] === 'left' ? 1 : -1);
    return [[u, Number(match[3]) * (match[4] ? -1 : 1)]];
  });
}

/** One plan for each, whichever setup and paper: its layouts are kept by it. */
const inMm = kept((plan: Plan): Plan => ({ ...plan, units: 'mm' }));

const cases = sampleSetups().flatMap(({ name, plan, id }) =>
  (['a4', 'letter'] as const).map((paper) => ({
    name: `${name}, ${paper}`,
    plan: inMm(plan),
    id,
    paper,
  })),
);

describe.each(cases)('$name', ({ plan, id, paper }) => {
  const layout = layoutOf(plan, id);
  const made = markPlan(plan, id, layout);
  const sheets = templateSheets(plan, id, layout, { ...options, paper });
  const pages = sheets.slice(1);

  test('TP-1 every page keeps 10 mm margins, and no text lies on another or across the frame', () => {
    const wrong = sheets.flatMap((sheet) => [...outsideFrame(sheet, measure), ...textsOnTexts(sheet, measure)]);
    expect(wrong).toEqual([]);
  });

  test('TP-2 every page but the map has two check bars of 100 mm', () => {
    for (const { marks } of pages) {
      const bars = marks.filter(({ title }) => title?.startsWith('Check bar'));
      const sizes = bars.map((mark) => {
        const { minX, maxX, minY, maxY } = boxOfMark(mark);
        return [maxX - minX, maxY - minY];
      });
      expect(sizes).toHaveLength(2);
      expect(sizes[0][0]).toBeCloseTo(100, 9);
      expect(sizes[1][1]).toBeCloseTo(100, 9);
    }
  });

  test('TP-3 every outline of a contact is whole on the pages taken together, and every mark on at least one', () => {
    const { shapes } = templateOf(layout, made);
    for (const name of new Set(shapes.flatMap((shape) => shape.name ?? []))) {
      const whole = shapes
        .filter((shape) => shape.name === name)
        .flatMap(({ loops }) => loops.flat())
        .reduce(
          (sum, p) => sum + (p.kind === 'segment' ? Math.hypot(p.x1 - p.x0, p.y1 - p.y0) : p.r * Math.abs(p.sweep)),
          0,
        );
      const shown = pages.flatMap(({ marks }) => marks).filter((mark) => mark.title === name);
      const sum = shown.reduce((all, mark) => all + lengthOf(mark), 0);
      // Overlaps show a stretch twice or four times; a thousandth of a mm may be lost at a cut.
      expect(sum, name).toBeGreaterThan(whole - 0.05);
      expect(sum, name).toBeLessThan(whole * 4 + 0.05);
    }
    const numbers = new Set(pages.flatMap(({ marks }) => marks.filter(isText).map(({ text }) => text)));
    for (const { number } of made.marks) expect(numbers.has(String(number)), String(number)).toBe(true);
  });

  test('TP-4 what lies in an overlap lies on both pages at the same place, to the register crosses', () => {
    // A page's own place, from what it says at its lower left cross, 5 mm within its frame.
    const at = pages.map((sheet) => ({ sheet, place: saidPlaces(sheet)[0] }));
    const crosses = at.flatMap(({ sheet, place: [u, v] }) =>
      sheet.marks.flatMap((mark) => {
        if (mark.title !== 'Register cross' || mark.kind !== 'circle') return [];
        return [{ name: sheet.subject, u: mark.cx - 15 + u, v: mark.cy - 15 + v }];
      }),
    );
    expect(crosses.length).toBe(8 * pages.length);
    // Crosses of two pages are either one place (said to the mm) or more than an overlap apart.
    let shared = 0;
    const between: string[] = [];
    crosses.forEach((a, i) => {
      for (const b of crosses.slice(i + 1)) {
        const far = Math.hypot(a.u - b.u, a.v - b.v);
        if (far >= 1.5 && far <= 20) between.push(`${a.name} ${b.name} ${far}`);
        if (far < 1.5 && a.name !== b.name) shared++;
      }
    });
    expect(between).toEqual([]);
    expect(shared).toBeGreaterThan(0);
  });

  test('TP-5 a numbered cross lies where the mark sheet has it, counted from the crosses that say their place', () => {
    for (const sheet of pages) {
      const [[u, v]] = saidPlaces(sheet);
      for (const mark of sheet.marks) {
        if (mark.kind !== 'path' || mark.title !== 'Mark') continue;
        const { minX, maxX, minY, maxY } = boxOfMark(mark);
        if (maxX - minX < 11.99 || maxY - minY < 11.99) continue; // Cut by the page's edge.
        const [x, y] = [(minX + maxX) / 2 - 15 + u, (minY + maxY) / 2 - 15 + v];
        const off = made.marks.map(({ fromCentreMm, fromFrontMm }) => Math.hypot(fromCentreMm - x, fromFrontMm - y));
        expect(Math.min(...off)).toBeLessThan(0.75);
      }
    }
  });

  test('long: one page with everything, at most 5080 mm', () => {
    const long = templateSheets(plan, id, layout, { ...options, paper, long: true });
    expect(long).toHaveLength(1);
    expect(long[0].heightMm).toBeLessThanOrEqual(5080);
    expect(long[0].widthMm).toBeLessThanOrEqual(5080);
    const numbers = new Set(long[0].marks.filter(isText).map(({ text }) => text));
    for (const { number } of made.marks) expect(numbers.has(String(number)), String(number)).toBe(true);
  });
});

test.each(some(cases, 4))('$name: the same call gives the same sheets', ({ plan, id, paper }) => {
  const make = (layout: Layout) => JSON.stringify(templateSheets(plan, id, layout, { ...options, paper }));
  expect(make(layoutSetup(plan, id))).toBe(make(layoutOf(plan, id)));
});

test('a setup longer than the longest page comes in strips with their map', () => {
  const { plan, id } = sampleSetups()[0];
  const setup = plan.setups[id];
  const throne = setup.pieces.throne;
  const far = { ...throne, place: { ...throne.place, yMm: 9000 } } as typeof throne;
  const wide: Plan = {
    ...plan,
    setups: { ...plan.setups, [id]: { ...setup, riser: null, pieces: { ...setup.pieces, throne: far } } },
  };
  const sheets = templateSheets(wide, id, layoutSetup(wide, id), { ...options, long: true });
  expect(sheets).toHaveLength(3);
  for (const { heightMm } of sheets) expect(heightMm).toBeLessThanOrEqual(5080);
});

test('an empty setup gives the map alone', () => {
  const plan = newPlan('Nothing yet');
  const sheets = templateSheets(plan, plan.order[0], layoutSetup(plan, plan.order[0]), options);
  expect(sheets).toHaveLength(1);
});

test('a setup that the plan does not have is refused', () => {
  const plan = newPlan('Plan');
  expect(() => templateSheets(plan, 'constructor', layoutSetup(plan, plan.order[0]), options)).toThrow(/no setup/);
});
