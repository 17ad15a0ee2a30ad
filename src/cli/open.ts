/** Opens plan files and stock lists, and finds a setup by name or id. Every failure is one sentence. */
import { readFileSync, statSync } from 'node:fs';
import { type Inventory, readInventory } from '../plan/inventory.ts';
import { readPlan } from '../plan/read.ts';
import { LIMITS, type Plan } from '../plan/schema.ts';
import type { Answer } from './say.ts';

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  EACCES: 'it may not be read',
};

function readText(file: string, what: string): Answer<{ text: string }> {
  try {
    const { size } = statSync(file);
    const sentence = `${file} has ${Math.round(size / 1e6)} MB, and a ${what} has at most ${LIMITS.bytes / 1e6} MB.`;
    if (size > LIMITS.bytes * 2) return { ok: false, sentence };
    return { ok: true, text: readFileSync(file, 'utf8') };
  } catch (problem) {
    const code = (problem as NodeJS.ErrnoException).code ?? '';
    return { ok: false, sentence: `${file} could not be opened: ${REASONS[code] ?? code}.` };
  }
}

export function openPlan(file: string): Answer<{ plan: Plan }> {
  const opened = readText(file, 'plan');
  if (!opened.ok) return opened;
  const read = readPlan(opened.text);
  return read.ok ? { ok: true, plan: read.plan } : { ok: false, sentence: `${file}: ${read.problem.sentence}` };
}

/** A stock list, whose gear may be the plan's own. */
export function openStock(file: string, plan: Plan): Answer<{ inventory: Inventory }> {
  const opened = readText(file, 'stock list');
  if (!opened.ok) return opened;
  const read = readInventory(opened.text, plan.gear);
  return read.ok ? read : { ok: false, sentence: `${file}: ${read.problem.sentence}` };
}

/** The setup's id, or a sentence that lists the names there are. */
export function findSetup(plan: Plan, wanted: string | undefined): Answer<{ id: string }> {
  if (wanted === undefined) return { ok: true, id: plan.order[0] };
  const named = plan.order.find((id) => plan.setups[id].name === wanted) ?? plan.order.find((id) => id === wanted);
  if (named !== undefined) return { ok: true, id: named };
  const names = plan.order.map((id) => `"${plan.setups[id].name}"`).join(', ');
  return { ok: false, sentence: `The plan has no setup "${wanted}". Its setups are ${names}.` };
}

/** Several setups, each once: named one by one, or in one word with commas between them. */
export function findSetups(plan: Plan, wanted: readonly string[]): Answer<{ ids: readonly string[] }> {
  const ids: string[] = [];
  for (const words of wanted) {
    // A name may have a comma of its own.
    const parts = findSetup(plan, words).ok ? [words] : words.split(',').map((part) => part.trim());
    for (const part of parts) {
      const found = findSetup(plan, part);
      if (!found.ok) return found;
      if (!ids.includes(found.id)) ids.push(found.id);
    }
  }
  return { ok: true, ids };
}
