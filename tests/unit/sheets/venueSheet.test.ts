import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../../src/checks/run.ts';
import { sheetFonts } from '../../../src/cli/fonts.ts';
import { boxOfMark, type TextMark } from '../../../src/drawing/displayList.ts';
import { textBox } from '../../../src/drawing/textWidth.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { readPlan } from '../../../src/plan/read.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { measureWith } from '../../../src/sheets/page.ts';
import { barFor, SCALES } from '../../../src/sheets/scaleBar.ts';
import { toSvg } from '../../../src/sheets/svg.ts';
import { venueSheets } from '../../../src/sheets/venueSheet.ts';

const fonts = sheetFonts();
const measure = measureWith(fonts);

function sheetsOf(plan: Plan, id: string, paper: 'a4' | 'letter') {
  const layout = layoutSetup(plan, id);
  return venueSheets(plan, id, layout, runChecks(plan, id, layout), { paper, date: '2026-03-14', fonts, flags: true });
}

const cases = readdirSync('samples')
  .filter((name) => name.endsWith('.legroom.json'))
  .flatMap((name) => {
    const read = readPlan(readFileSync(`samples/${name}`, 'utf8'));
    if (!read.ok) throw new Error(read.problem.sentence);
    const { plan } = read;
    return (['a4', 'letter'] as const).map((paper): [string, Plan, 'a4' | 'letter'] => [
      `${plan.name} on ${paper}`,
      plan,
      paper,
    ]);
  });

describe.each(cases)('%s', (_, plan, paper) => {
  const sheets = sheetsOf(plan, plan.order[0], paper);

  test('everything lies within the frame, 10 mm from the paper’s edges', () => {
    for (const { marks, widthMm, heightMm } of sheets)
      for (const mark of marks) {
        const box = mark.kind === 'text' ? textBox(mark, 1, measure) : boxOfMark(mark);
        const name = mark.kind === 'text' ? mark.text : `${mark.layer} ${mark.title}`;
        expect(box.minX, name).toBeGreaterThanOrEqual(10 - 1e-6);
        expect(box.minY, name).toBeGreaterThanOrEqual(10 - 1e-6);
        expect(box.maxX, name).toBeLessThanOrEqual(widthMm - 10 + 1e-6);
        expect(box.maxY, name).toBeLessThanOrEqual(heightMm - 10 + 1e-6);
      }
  });

  test('no text lies on another', () => {
    for (const { marks } of sheets) {
      const texts = marks.filter((mark): mark is TextMark => mark.kind === 'text');
      const boxes = texts.map((mark) => textBox(mark, 1, measure));
      for (let i = 0; i < texts.length; i++)
        for (let j = i + 1; j < texts.length; j++) {
          if (texts[i].part === texts[j].part && texts[i].layer === 'names') continue;
          const [a, b] = [boxes[i], boxes[j]];
          const x = Math.min(a.maxX, b.maxX) - Math.max(a.minX, b.minX);
          const y = Math.min(a.maxY, b.maxY) - Math.max(a.minY, b.minY);
          expect(x > 0.01 && y > 0.01, `${texts[i].text} on ${texts[j].text}`).toBe(false);
        }
    }
  });

  test('every drawing says scale, audience, sides of the stage, setup, date and caution', () => {
    for (const { marks } of sheets.filter(({ subject }) => subject.startsWith('Venue'))) {
      const texts = marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
      const scale = texts.find((text) => /^1:\d+$/.test(text));
      expect(SCALES).toContain(Number(scale?.slice(2)));
      for (const text of [
        'AUDIENCE',
        'STAGE LEFT',
        'STAGE RIGHT',
        'UPSTAGE',
        '2026-03-14',
        plan.setups[plan.order[0]].name,
      ])
        expect(texts).toContain(text);
      expect(texts.join(' ')).toContain('Local codes');
    }
  });
});

test.each(cases)('%s has its input list on exactly one page', (_, plan, paper) => {
  const lists = sheetsOf(plan, plan.order[0], paper).filter(({ marks }) =>
    marks.some((mark) => mark.kind === 'text' && mark.text === 'Input list, proposed'),
  );
  expect(lists).toHaveLength(1);
});

test('an empty setup without a riser still gives a sheet', () => {
  const plan = newPlan('Nothing yet');
  const [id] = plan.order;
  const bare = { ...plan, setups: { [id]: { ...plan.setups[id], riser: null } } };
  const [sheet] = sheetsOf(bare, id, 'a4');
  const texts = sheet.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
  expect(texts).toContain('none: kit on the stage floor');
});

test('a setup that the plan does not have is refused', () => {
  const plan = newPlan('Plan');
  const layout = layoutSetup(plan, plan.order[0]);
  const checked = runChecks(plan, plan.order[0], layout);
  const options = { paper: 'a4', date: '2026-03-14', fonts } as const;
  expect(() => venueSheets(plan, 'constructor', layout, checked, options)).toThrow(/no setup/);
});

test.each([
  [10, 'mm', 500],
  [20, 'mm', 1000],
  [50, 'mm', 2000],
  [20, 'in', 4 * 304.8],
] as const)('the bar at 1:%i in %s stands for %f mm', (scale, unit, mm) =>
  expect(barFor(scale, unit).mm).toBeCloseTo(mm, 9),
);

describe('as SVG', () => {
  const [, plan] = cases[0];
  const named = { ...plan, name: 'Tom & <Jerry> "live"' };
  const svg = toSvg(sheetsOf(named, named.order[0], 'a4')[0]);

  test('it is in mm, with names escaped', () => {
    expect(svg).toMatch(/^<svg [^>]*width="(210|297)mm"/);
    expect(svg).toContain('Tom &amp; &lt;Jerry&gt; &quot;live&quot;');
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  test('every element that opens closes', () => {
    const stack: string[] = [];
    for (const [, slash, name, self] of svg.matchAll(/<(\/?)([a-z]+)[^>]*?(\/?)>/g)) {
      if (self) continue;
      if (slash) expect(stack.pop()).toBe(name);
      else stack.push(name);
    }
    expect(stack).toEqual([]);
  });

  test('round things keep their curves', () => {
    expect(svg.match(/<circle /g)?.length).toBeGreaterThan(5);
    expect(svg).toMatch(/ d="M[^"]*A/);
  });
});
