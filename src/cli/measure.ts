/**
 * npm run measure -- FILE [--setup NAME] [--json]
 *
 * Prints what the page shows. Exit status: 0 no blocked finding, 1 some, 2 the file could not be read.
 */
import { type ComparedSetup, compareSetups } from '../checks/compare.ts';
import { differences } from '../checks/differences.ts';
import { cautionsOf } from '../drawing/cautions.ts';
import { differenceLines } from '../drawing/differenceWords.ts';
import { READING_ROWS, rowText } from '../drawing/readingRows.ts';
import { measureReport } from '../drawing/report.ts';
import { checkWord, findingSentence } from '../drawing/sentences.ts';
import type { Plan } from '../plan/schema.ts';
import { readArgs } from './args.ts';
import { findSetup, openPlan } from './open.ts';

const USAGE = 'Usage: npm run measure -- FILE [--setup NAME] [--json]';

/** Columns as wide as their widest cell; the first to the left, numbers to the right. */
function table(rows: readonly (readonly string[])[]): string {
  const widths = rows[0].map((_, k) => Math.max(...rows.map((row) => row[k].length)));
  return rows
    .map((row) =>
      row
        .map((cell, k) => (k === 0 ? cell.padEnd(widths[k]) : cell.padStart(widths[k])))
        .join('   ')
        .trimEnd(),
    )
    .join('\n');
}

function text(plan: Plan, measured: readonly ComparedSetup[]): string {
  const rows = READING_ROWS.map((row) => [
    row.label,
    ...measured.map(({ readings }) => rowText(row, readings, plan.units)),
  ]);
  const names = ['', ...measured.map(({ name }) => name)];
  // A row in which no setup has a number says nothing.
  const parts = [plan.name, '', table([names, ...rows.filter(([, ...cells]) => cells.some((cell) => cell !== '–'))])];
  for (const { id, name, checked } of measured) {
    parts.push('', name);
    for (const finding of checked.findings)
      parts.push(
        `  ${finding.state.toUpperCase().padEnd(10)} ${checkWord(finding.check)}: ${findingSentence(finding, plan, id)}`,
      );
  }
  const [base, ...others] = measured;
  for (const { id, name } of others)
    parts.push(
      '',
      `From "${base.name}" to "${name}"`,
      ...differenceLines(differences(plan, base.id, id), plan).map((line) => `  ${line}`),
    );
  const cautions = cautionsOf(measured.flatMap(({ checked }) => checked.findings));
  parts.push(
    '',
    ...cautions,
    'Sizes are typical unless you measured them. A rack can tip, a deck can be overloaded and an edge is a fall:',
    'local codes, the venue and licensed practice decide.',
  );
  return parts.join('\n');
}

function main(argv: readonly string[]): number {
  const args = readArgs(argv, { setup: { type: 'string' }, json: { type: 'boolean' } }, USAGE);
  if (!args.ok) return fail(args.sentence);
  const opened = openPlan(args.file);
  if (!opened.ok) return fail(opened.sentence);
  const { plan } = opened;
  const wanted = args.values.setup as string | undefined;
  const found = findSetup(plan, wanted);
  if (!found.ok) return fail(found.sentence);
  const ids = wanted !== undefined || args.values.json ? [found.id] : plan.order;
  const measured = compareSetups(plan, ids);
  const [first] = measured;
  console.log(
    args.values.json
      ? JSON.stringify(measureReport(plan, first.id, first.layout, first.checked), null, 1)
      : text(plan, measured),
  );
  return measured.some(({ states }) => states.blocked > 0) ? 1 : 0;
}

function fail(sentence: string): number {
  console.error(sentence);
  return 2;
}

process.exitCode = main(process.argv.slice(2));
