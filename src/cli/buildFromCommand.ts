/** The build-from command without its process: whether a setup can be built from what is owned, in words or as JSON. */
import { layoutSetup } from '../layout/layout.ts';
import type { Inventory } from '../plan/inventory.ts';
import type { Plan } from '../plan/schema.ts';
import { type BuildAnswer, buildFrom } from '../solve/buildFrom.ts';
import { buildWords } from '../words/buildWords.ts';
import { readArgs } from './args.ts';
import { findSetup, openPlan, openStock } from './open.ts';
import { fail, type Say } from './say.ts';

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

export function buildFromCommand(argv: readonly string[], say: Say): number {
  const flags = { stock: { type: 'string' }, setup: { type: 'string' }, json: { type: 'boolean' } } as const;
  const args = readArgs(argv, flags, USAGE);
  if (!args.ok) return fail(say, args.sentence);
  const { stock, setup, json } = args.values as { stock?: string; setup?: string; json?: boolean };
  if (stock === undefined) return fail(say, `A stock list is wanted. ${USAGE}`);
  const opened = openPlan(args.file);
  if (!opened.ok) return fail(say, opened.sentence);
  const found = findSetup(opened.plan, setup);
  if (!found.ok) return fail(say, found.sentence);
  const owned = openStock(stock, opened.plan);
  if (!owned.ok) return fail(say, owned.sentence);
  const answer = buildFrom(opened.plan, found.id, layoutSetup(opened.plan, found.id), owned.inventory);
  say.out(json ? JSON.stringify(answer, null, 1) : text(opened.plan, found.id, owned.inventory, answer));
  return answer.buildable ? 0 : 1;
}
