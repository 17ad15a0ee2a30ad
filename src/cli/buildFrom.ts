/**
 * npm run build-from -- PLAN --stock STOCK [--setup NAME] [--json]
 *
 * Can this setup be built from what is owned? What is cut, what stands in for what, what is missing and what would have to
 * move. Exit status: 0 it can, 1 something is missing, 2 a file could not be read.
 */
import { readFileSync } from 'node:fs';
import { pieceName } from '../drawing/sentences.ts';
import { gearOf } from '../gear/catalogue.ts';
import { layoutSetup } from '../layout/layout.ts';
import { type Inventory, readInventory } from '../plan/inventory.ts';
import type { Plan } from '../plan/schema.ts';
import { type BuildAnswer, buildFrom, type Missing, type Served } from '../solve/buildFrom.ts';
import { formatAngle, formatLength } from '../units.ts';
import { readArgs } from './args.ts';
import { findSetup, openPlan } from './open.ts';

const USAGE = 'Usage: npm run build-from -- PLAN --stock STOCK [--setup NAME] [--json]';

function openStock(file: string, plan: Plan): { ok: true; inventory: Inventory } | { ok: false; sentence: string } {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch {
    return { ok: false, sentence: `${file} could not be opened: there is no such file, or it may not be read.` };
  }
  const read = readInventory(text, plan.gear);
  return read.ok ? read : { ok: false, sentence: `${file}: ${read.problem.sentence}` };
}

function text(plan: Plan, setup: string, inventory: Inventory, answer: BuildAnswer): string {
  const gear = { ...plan.gear, ...(inventory.gear ?? {}) };
  const named = (id: string) => gearOf(gear, id)?.name ?? id;
  const mm = (value: number) => formatLength(value, plan.units);
  const of = (piece: string) => pieceName(plan, setup, piece);
  /** With its length, where its name does not say it. */
  const part = ({ gear: id, label, cutLength }: { gear: string; label: string; cutLength: number | null }) =>
    cutLength === null || label === gearOf(plan.gear, id)?.name ? label : `${label} of ${mm(cutLength)}`;
  const servedLine = ({ need, gear: owned, cutToMm }: Served): string => {
    const cut = cutToMm === null ? '' : `, cut to ${mm(cutToMm)}`;
    return `  ${of(need.piece)}: ${named(owned)} for ${need.label}${cut}`;
  };
  const missingLine = ({ need, nearest }: Missing): string => {
    const line = `  ${of(need.piece)}: ${part(need)}`;
    if (!nearest) return line;
    const { shortfall } = nearest;
    if (need.cutLength !== null) return `${line}; ${named(nearest.gear)} is ${mm(shortfall.mm)} too short`;
    const ways: string[] = [];
    const way = (value: number, more: string, less: string) => {
      if (Math.abs(value) >= 0.5) ways.push(`${mm(Math.abs(value))} ${value > 0 ? more : less}`);
    };
    way(shortfall.out, 'away from its clamp', 'nearer to its clamp');
    way(shortfall.up, 'up', 'down');
    if (shortfall.tiltDeg > 0) ways.push(`${formatAngle(shortfall.tiltDeg)} flatter`);
    return `${line}; ${named(nearest.gear)} would do if the piece went ${ways.join(' and ')}`;
  };
  const changed = answer.served.filter(({ other, cutToMm }) => other || cutToMm !== null);
  const price = (each: number | null) => (each === null ? '' : ` at ${each} ${inventory.currency ?? ''}`.trimEnd());
  const lines = [
    `${plan.name}, ${plan.setups[setup].name}, from ${inventory.name}`,
    answer.buildable
      ? 'It can be built: nothing is missing.'
      : `It cannot be built: ${answer.missing.length} of ${answer.missing.length + answer.served.length} parts are missing.`,
  ];
  if (changed.length > 0) lines.push('', 'Cut, or other than planned', ...changed.map(servedLine));
  if (answer.missing.length > 0)
    lines.push(
      '',
      'Missing',
      ...answer.missing.map(missingLine),
      '',
      'To buy',
      ...answer.toBuy.map(({ part: row, price: each }) => `  ${row.count} x ${part(row)}${price(each)}`),
    );
  if (answer.cost > 0)
    lines.push(`  Together, where a price is known: ${answer.cost} ${inventory.currency ?? ''}`.trimEnd());
  return lines.join('\n');
}

function main(argv: readonly string[]): number {
  const flags = { stock: { type: 'string' }, setup: { type: 'string' }, json: { type: 'boolean' } } as const;
  const args = readArgs(argv, flags, USAGE);
  if (!args.ok) return fail(args.sentence);
  const { stock, setup, json } = args.values as { stock?: string; setup?: string; json?: boolean };
  if (stock === undefined) return fail(`A stock list is wanted. ${USAGE}`);
  const opened = openPlan(args.file);
  if (!opened.ok) return fail(opened.sentence);
  const found = findSetup(opened.plan, setup);
  if (!found.ok) return fail(found.sentence);
  const owned = openStock(stock, opened.plan);
  if (!owned.ok) return fail(owned.sentence);
  const answer = buildFrom(opened.plan, found.id, layoutSetup(opened.plan, found.id), owned.inventory);
  console.log(json ? JSON.stringify(answer, null, 1) : text(opened.plan, found.id, owned.inventory, answer));
  return answer.buildable ? 0 : 1;
}

function fail(sentence: string): number {
  console.error(sentence);
  return 2;
}

process.exitCode = main(process.argv.slice(2));
