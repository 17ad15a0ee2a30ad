import { describe, expect, test } from 'vitest';
import { markPlan } from '../../../src/checks/marks/markPlan.ts';
import { sheetFonts } from '../../../src/cli/fonts.ts';
import type { Mark, TextMark } from '../../../src/drawing/displayList.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { markSheets } from '../../../src/sheets/markSheet.ts';
import { measureWith } from '../../../src/sheets/page.ts';
import { SCALES } from '../../../src/sheets/scaleBar.ts';
import { errorLength, fromCentre, fromFront, markName, tapeLength } from '../../../src/words/markWords.ts';
import { layoutOf, sampleSetups } from '../../fixtures/samplePlans.ts';
import { outsideFrame, textsOnTexts } from '../../fixtures/sheetLaws.ts';

const fonts = sheetFonts();
const measure = measureWith(fonts);
const isText = (mark: Mark): mark is TextMark => mark.kind === 'text';
const textsOf = (sheets: readonly { marks: readonly Mark[] }[]) =>
  sheets.flatMap(({ marks }) => marks.filter(isText).map(({ text }) => text));

const plain = sampleSetups();
const bare = (plan: Plan, id: string): Plan => ({
  ...plan,
  setups: { ...plan.setups, [id]: { ...plan.setups[id], riser: null, stage: null } },
});
const staged = (plan: Plan, id: string): Plan => {
  const corners = [-4000, -2500, 4400, -2500, 4000, 4000, -3600, 4000];
  const outline = [0, 2, 4, 6].map((k) => ({ xMm: corners[k], yMm: corners[k + 1] }));
  const stages = { s: { id: 's', name: 'Hall', centreXMm: 200, outline, wings: [] } };
  return { ...plan, stages, setups: { ...plan.setups, [id]: { ...plan.setups[id], riser: null, stage: 's' } } };
};
const cases = [
  ...plain,
  ...plain.slice(0, 2).map(({ name, plan, id }) => ({ name: `${name}, on a stage`, plan: staged(plan, id), id })),
  ...plain.slice(0, 3).map(({ name, plan, id }) => ({ name: `${name}, bare floor`, plan: bare(plan, id), id })),
].flatMap((sample) =>
  (['a4', 'letter'] as const).map((paper) => ({ ...sample, name: `${sample.name}, ${paper}`, paper })),
);

describe.each(cases)('$name', ({ plan, id, paper }) => {
  const layout = layoutOf(plan, id);
  const made = markPlan(plan, id, layout);
  const sheets = markSheets(plan, id, layout, { paper, date: '2026-11-28', fonts });

  test('MS-1 everything lies within the frame, and no text on another', () => {
    const wrong = sheets.flatMap((sheet) => [...outsideFrame(sheet, measure), ...textsOnTexts(sheet, measure)]);
    expect(wrong).toEqual([]);
  });

  test('MS-2 every mark has its number on the drawing and one row in the table', () => {
    const drawn = sheets[0].marks.filter(isText).filter(({ layer }) => layer === 'names');
    for (const { number } of made.marks)
      expect(
        drawn.filter(({ text }) => text === String(number)),
        `number ${number}`,
      ).toHaveLength(1);
    const texts = textsOf(sheets);
    for (const { mark, fromCentreMm, fromFrontMm, tapes, control } of made.marks) {
      // A long name may be cut by an ellipsis on paper, never below its first words.
      const name = markName(mark);
      expect(
        texts.some((text) => text === name || (text.endsWith('…') && name.startsWith(text.slice(0, -1)))),
        name,
      ).toBe(true);
      expect(texts).toContain(fromCentre(fromCentreMm, plan.units));
      expect(texts).toContain(fromFront(fromFrontMm, plan.units));
      if (tapes) for (const mm of [tapes.firstMm, tapes.secondMm]) expect(texts).toContain(tapeLength(mm, plan.units));
      if (control) expect(texts).toContain(`${control.to}: ${tapeLength(control.distanceMm, plan.units)}`);
    }
  });

  test('MS-3 it says its scale, its hooks, how to use it, and what to beware of', () => {
    const texts = textsOf(sheets);
    expect(SCALES).toContain(Number(texts.find((text) => /^1:\d+$/.test(text))?.slice(2)));
    for (const { letter } of made.datums) expect(texts).toContain(letter);
    const all = texts.join(' ');
    for (const words of ['Marks on the floor', 'AUDIENCE', 'Local codes', 'centre line', 'control'])
      expect(all).toContain(words);
  });

  test('the same call gives the same sheets', () =>
    expect(JSON.stringify(markSheets(plan, id, layoutSetup(plan, id), { paper, date: '2026-11-28', fonts }))).toBe(
      JSON.stringify(sheets),
    ));
});

test('an empty setup still gives a sheet', () => {
  const plan = newPlan('Nothing yet');
  const [id] = plan.order;
  expect(textsOf(markSheets(plan, id, layoutSetup(plan, id), { paper: 'a4', date: '2026-11-28', fonts }))).toContain(
    'Marks on the floor',
  );
});

test.each([
  [5.01, 'mm', '5.1'],
  [5.0, 'mm', '5'],
  [6.35, 'in', '1/4"'],
  [6.4, 'in', '5/16"'],
] as const)('an error of %f mm is never shown smaller: %s %s', (mm, units, text) =>
  expect(errorLength(mm, units)).toBe(text),
);

test.each([
  [516, 'mm', '516 stage left'],
  [-516.4, 'mm', '516 stage right'],
  [0.3, 'mm', 'on it'],
  [-25.4, 'in', '1" stage right'],
] as const)('%f in %s from the centre line: %s', (mm, units, text) => expect(fromCentre(mm, units)).toBe(text));
