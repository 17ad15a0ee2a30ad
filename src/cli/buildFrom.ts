/**
 * npm run build-from -- PLAN --stock STOCK [--setup NAME] [--json]
 *
 * Can this setup be built from what is owned? What is cut, what stands in for what, what is missing and what would have to
 * move. Exit status: 0 it can, 1 something is missing, 2 a file could not be read.
 */
import { layoutSetup } from '../layout/layout.ts';
import type { Inventory } from '../plan/inventory.ts';
import type { Plan } from '../plan/schema.ts';
import { type BuildAnswer, buildFrom } from '../solve/buildFrom.ts';
import { buildWords } from '../words/buildWords.ts';
import { readArgs } from './args.ts';
import { findSetup, openPlan, openStock } from './open.ts';

const USAGE = 'Usage: npm run build-from -- PLAN --stock STOCK [--setup NAME] [--json]';

const indented = (lines: readonly string[]) => lines.map((line) => `  ${line}`);

function text(plan: Plan, setup: string, inventory: Inventory, answer: BuildAnswer): string {
  const { verdict, changed, missing, toBuy, cost } = buildWords(plan, setup, inventory, answer);
  const lines = [`${plan.name}, ${plan.setups[setup].name}, from ${inventory.name}`, verdict];
  if (changed.length > 0) lines.push('', 'Cut, or other than planned', ...indented(changed));
  if (missing.length > 0) lines.push('', 'Missing', ...indented(missing), '', 'To buy', ...indented(toBuy));
  if (cost !== null) lines.push(`  Together, where a price is known: ${cost}`);
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
