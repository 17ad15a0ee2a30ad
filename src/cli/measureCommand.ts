/** The measure command without its process: what the page shows, in words or as JSON. */
import { type ComparedSetup, comparedSetup } from '../checks/compare.ts';
import type { Plan } from '../plan/schema.ts';
import { cautionsOf } from '../words/cautions.ts';
import { READING_ROWS, rowText } from '../words/readingRows.ts';
import { measureReport, reportDifferences } from '../words/report.ts';
import { checkWord, findingSentence } from '../words/sentences.ts';
import { readArgs } from './args.ts';
import { findSetup, openPlan } from './open.ts';
import { fail, type Say } from './say.ts';

const USAGE = 'Usage: npm run measure -- FILE [--setup NAME] [--against NAME] [--turn DEGREES] [--json]';

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

/** `base`: what the others are held against. */
function text(plan: Plan, measured: readonly ComparedSetup[], base: ComparedSetup): string {
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
  for (const other of measured)
    if (other !== base) {
      const { from, to, lines } = reportDifferences(plan, base, other);
      parts.push('', `From "${from}" to "${to}"`, ...lines.map((line) => `  ${line}`));
    }
  const cautions = cautionsOf(measured.flatMap(({ checked }) => checked.findings));
  parts.push(
    '',
    ...cautions,
    'Sizes are typical unless you measured them. A rack can tip, a deck can be overloaded and an edge is a fall:',
    'local codes, the venue and licensed practice decide.',
  );
  return parts.join('\n');
}

/** The plan with another limit on how far the best place on a riser may turn a kit. */
const turningAtMost = (plan: Plan, turnAtMostDeg: number): Plan => ({
  ...plan,
  risers: Object.fromEntries(Object.entries(plan.risers).map(([id, riser]) => [id, { ...riser, turnAtMostDeg }])),
});

export function measureCommand(argv: readonly string[], say: Say): number {
  const flags = {
    setup: { type: 'string' },
    against: { type: 'string' },
    turn: { type: 'string' },
    json: { type: 'boolean' },
  } as const;
  const args = readArgs(argv, flags, USAGE);
  if (!args.ok) return fail(say, args.sentence);
  const opened = openPlan(args.file);
  if (!opened.ok) return fail(say, opened.sentence);
  const turn = args.values.turn === undefined ? null : Number(args.values.turn);
  if (turn !== null && !(turn >= 0 && turn <= 180))
    return fail(say, `--turn must be a number of degrees from 0 to 180, not "${args.values.turn}".`);
  const plan = turn === null ? opened.plan : turningAtMost(opened.plan, turn);
  const wanted = args.values.setup as string | undefined;
  const found = findSetup(plan, wanted);
  if (!found.ok) return fail(say, found.sentence);
  const otherName = args.values.against as string | undefined;
  const other = otherName === undefined ? null : findSetup(plan, otherName);
  if (other && !other.ok) return fail(say, other.sentence);
  if (other?.id === found.id)
    return fail(
      say,
      `"${plan.setups[found.id].name}" cannot be held against itself: name another setup after --against.`,
    );

  const one = wanted !== undefined || other !== null || args.values.json === true;
  const measured = (one ? [found.id] : plan.order).map((id) => comparedSetup(plan, id));
  const [first] = measured;
  const base = other ? comparedSetup(plan, other.id) : first;
  if (args.values.json) {
    const report = measureReport(plan, first.id, first.layout, first.checked);
    const compared = other ? { ...report, differences: reportDifferences(plan, base, first) } : report;
    say.out(JSON.stringify(compared, null, 1));
  } else say.out(text(plan, other ? [base, first] : measured, base));
  // The setup that another is held against is not what was asked about.
  return measured.some(({ states }) => states.blocked > 0) ? 1 : 0;
}
