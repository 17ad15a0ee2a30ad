/** Readings of several setups as a table: what differs from the first, and the best of each row by a dot and bold type. */
import type { ComparedSetup } from '../checks/compare.ts';
import type { Differences } from '../checks/differences.ts';
import type { Plan } from '../plan/schema.ts';
import { bestOf, comparedReadings, differenceOf, READING_ROWS, rowText } from '../words/readingRows.ts';
import { stateText } from '../words/states.ts';
import type { Block } from './blocks.ts';
import type { Page } from './page.ts';
import { type Column, type Line, Table } from './table.ts';

const ROW_MM = 4.3;
const LABEL_MM = 44;
/** Before a reading: the dot of the best. */
const DOT_AIR_MM = 3.2;
const KEY =
  'Dot and bold: the best of its row. In grey: how it differs from the first. Sizes are typical unless measured.';

/** The table's blocks, from its titles to its key; `found` are the differences of all but the first from the first. */
export function readingBlocks(
  measurer: Page,
  plan: Plan,
  setups: readonly ComparedSetup[],
  found: readonly Differences[],
  widthMm: number,
): Block[] {
  const all = setups.map(comparedReadings);
  const each = (widthMm - LABEL_MM) / setups.length;
  const columns: Column[] = [
    { title: '', widthMm: LABEL_MM },
    ...setups.map(({ name }, k) => ({ title: `${k + 1}  ${name}`, widthMm: each, beforeMm: DOT_AIR_MM })),
  ];
  const table = new Table(measurer, columns, { rowMm: ROW_MM });
  const row = (label: string, cells: readonly (string | Line)[]) =>
    table.row({ cells: [{ text: label, faint: true }, ...cells] });
  const readingRows = READING_ROWS.flatMap((reading) => {
    const texts = all.map((readings) => rowText(reading, readings, plan.units));
    // A row that nobody has is left out.
    if (texts.every((text) => text === '–')) return [];
    const best = bestOf(reading, all, plan.units);
    const cells = texts.map((text, k): Line => {
      const difference = k === 0 ? null : differenceOf(reading, all[k], all[0], plan.units);
      return { text, bold: best[k], dot: best[k], after: difference?.text ?? '' };
    });
    return row(reading.label, cells);
  });
  const titles = columns.map(({ title }): Line => ({ text: title, bold: true }));
  return [
    ...table.row({ cells: titles, heightMm: ROW_MM + 1, rule: 'thin' }),
    ...row('Same playing layout', [
      '(held against this)',
      ...found.map(({ samePlayingLayout }) => (samePlayingLayout ? 'yes' : 'no')),
    ]),
    ...readingRows,
    ...row(
      'Findings',
      setups.map(({ states }) => stateText(states)),
    ),
    ...table.row({ cells: [{ text: KEY, faint: true, span: columns.length }], rule: 'none' }),
  ];
}
