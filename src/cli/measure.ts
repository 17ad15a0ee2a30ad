/**
 * npm run measure -- FILE [--setup NAME] [--json]
 *
 * Prints what the page shows. Exit status: 0 no blocked finding, 1 some, 2 the file could not be read.
 */
import { partsOf } from '../checks/parts.ts';
import { type Checked, runChecks } from '../checks/run.ts';
import { wayInReading } from '../checks/wayIn.ts';
import { READING_ROWS, rowText } from '../drawing/readingRows.ts';
import { measureReport } from '../drawing/report.ts';
import { checkWord, findingSentence } from '../drawing/sentences.ts';
import { type Layout, layoutSetup } from '../layout/layout.ts';
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

function text(plan: Plan, measured: readonly { id: string; layout: Layout; checked: Checked }[]): string {
  const readings = measured.map(({ id, layout, checked }) => {
    const parts = partsOf(plan, id);
    const { bars } = checked.rig.room;
    return {
      ...checked.readings,
      wayIn: wayInReading(layout),
      freeBarMm: bars.length === 0 ? null : bars.reduce((sum, { free }) => sum + free, 0),
      massKg: parts.knownMass,
      massUnknown: parts.unmeasured,
      pieceCount: plan.setups[id].order.length,
    };
  });
  const rows = READING_ROWS.map((row) => [row.label, ...readings.map((each) => rowText(row, each, plan.units))]);
  const names = ['', ...measured.map(({ id }) => plan.setups[id].name)];
  // A row in which no setup has a number says nothing.
  const parts = [plan.name, '', table([names, ...rows.filter(([, ...cells]) => cells.some((cell) => cell !== '–'))])];
  for (const { id, checked } of measured) {
    parts.push('', plan.setups[id].name);
    for (const finding of checked.findings)
      parts.push(
        `  ${finding.state.toUpperCase().padEnd(10)} ${checkWord(finding.check)}: ${findingSentence(finding, plan, id)}`,
      );
  }
  parts.push(
    '',
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
  const measured = ids.map((id) => {
    const layout = layoutSetup(plan, id);
    return { id, layout, checked: runChecks(plan, id, layout) };
  });
  const [first] = measured;
  console.log(
    args.values.json
      ? JSON.stringify(measureReport(plan, first.id, first.layout, first.checked), null, 1)
      : text(plan, measured),
  );
  return measured.some(({ checked }) => checked.findings.some((finding) => finding.state === 'blocked')) ? 1 : 0;
}

function fail(sentence: string): number {
  console.error(sentence);
  return 2;
}

process.exitCode = main(process.argv.slice(2));
