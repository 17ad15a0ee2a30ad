/** Readings of several setups as a table: what differs from the first, and the best of each row by a dot and bold type. */
import type { ComparedSetup } from '../checks/compare.ts';
import type { Differences } from '../checks/differences.ts';
import { circleMark, style, TEXT_MM } from '../drawing/displayList.ts';
import type { Plan } from '../plan/schema.ts';
import { bestOf, comparedReadings, differenceOf, READING_ROWS, rowText } from '../words/readingRows.ts';
import type { Page } from './page.ts';
import { type Block, type Column, cell, columnEdges, middleBase } from './table.ts';

const ROW_MM = 4.3;
const SMALL = TEXT_MM.small;
const LABEL_MM = 44;
const DOT_MM = 0.65;
const KEY =
  'Dot and bold: the best of its row. In grey: how it differs from the first. Sizes are typical unless measured.';

function stateText({ states }: ComparedSetup): string {
  const parts = (['blocked', 'tight', 'unmeasured'] as const).filter((state) => states[state] > 0);
  return parts.length === 0 ? 'all clear' : parts.map((state) => `${states[state]} ${state}`).join(', ');
}

interface Cell {
  readonly text: string;
  readonly best: boolean;
  readonly difference: string;
}

/** The table's blocks, from its titles to its key; `found` are the differences of all but the first from the first. */
export function readingBlocks(
  plan: Plan,
  setups: readonly ComparedSetup[],
  found: readonly Differences[],
  x: number,
  widthMm: number,
): Block[] {
  const all = setups.map(comparedReadings);
  const each = (widthMm - LABEL_MM) / setups.length;
  const columns: Column[] = [
    { title: '', widthMm: LABEL_MM },
    ...setups.map(({ name }, k) => ({ title: `${k + 1}  ${name}`, widthMm: each })),
  ];
  const edges = columnEdges(columns, x);
  const row = (label: string, cells: readonly Cell[]): Block => ({
    heightMm: ROW_MM,
    draw: (page: Page, topMm) => {
      const base = middleBase(topMm, ROW_MM, SMALL);
      cell(page, columns, x, 0, label, base, { faint: true });
      cells.forEach(({ text, best, difference }, k) => {
        const [left, right] = [edges[k + 1] + 3.2, edges[k + 2] - 1];
        if (best)
          page.marks.push(
            circleMark(style('frame', { line: null, tint: 'solid' }), left - 1.6, topMm - ROW_MM / 2, DOT_MM),
          );
        page.fitted(text, left, base, right - left, { bold: best });
        const after = left + page.measure(text, SMALL, best) + 2;
        if (difference !== '' && after + page.measure(difference, SMALL, false) <= right)
          page.text(difference, after, base, { faint: true });
      });
      page.line(x, topMm - ROW_MM, x + widthMm, topMm - ROW_MM, { ink: 'faint' });
    },
  });
  const plain = (text: string): Cell => ({ text, best: false, difference: '' });
  const readingRows = READING_ROWS.flatMap((reading) => {
    const texts = all.map((readings) => rowText(reading, readings, plan.units));
    // A row that nobody has is left out.
    if (texts.every((text) => text === '–')) return [];
    const best = bestOf(reading, all, plan.units);
    const cells = texts.map((text, k): Cell => {
      const difference = k === 0 ? null : differenceOf(reading, all[k], all[0], plan.units);
      return { text, best: best[k], difference: difference?.text ?? '' };
    });
    return [row(reading.label, cells)];
  });
  const titles: Block = {
    heightMm: ROW_MM + 1,
    draw: (page, topMm) => {
      const base = middleBase(topMm, ROW_MM + 1, SMALL);
      columns.forEach(({ title }, k) => {
        const left = edges[k] + (k === 0 ? 1 : 3.2);
        page.fitted(title, left, base, edges[k + 1] - 1 - left, { bold: true });
      });
      page.line(x, topMm - ROW_MM - 1, x + widthMm, topMm - ROW_MM - 1);
    },
  };
  const playing = found.map(({ samePlayingLayout }) => plain(samePlayingLayout ? 'yes' : 'no'));
  return [
    titles,
    row('Same playing layout', [plain('(held against this)'), ...playing]),
    ...readingRows,
    row('Findings', setups.map(stateText).map(plain)),
    {
      heightMm: ROW_MM,
      draw: (page, topMm) => page.fitted(KEY, x + 1, middleBase(topMm, ROW_MM, SMALL), widthMm - 2, { faint: true }),
    },
  ];
}
