/** Opens a plan file and finds a setup in it by name or id. Every failure is one sentence. */
import { readFileSync, statSync } from 'node:fs';
import { readPlan } from '../plan/read.ts';
import { LIMITS, type Plan } from '../plan/schema.ts';

export type Opened = { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly sentence: string };

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  EACCES: 'it may not be read',
};

export function openPlan(file: string): Opened {
  let text: string;
  try {
    const { size } = statSync(file);
    if (size > LIMITS.bytes * 2)
      return {
        ok: false,
        sentence: `${file} has ${Math.round(size / 1e6)} MB, and a plan has at most ${LIMITS.bytes / 1e6} MB.`,
      };
    text = readFileSync(file, 'utf8');
  } catch (problem) {
    const code = (problem as NodeJS.ErrnoException).code ?? '';
    return { ok: false, sentence: `${file} could not be opened: ${REASONS[code] ?? code}.` };
  }
  const read = readPlan(text);
  return read.ok ? { ok: true, plan: read.plan } : { ok: false, sentence: `${file}: ${read.problem.sentence}` };
}

/** The setup's id, or a sentence that lists the names there are. */
export function findSetup(
  plan: Plan,
  wanted: string | undefined,
): { ok: true; id: string } | { ok: false; sentence: string } {
  if (wanted === undefined) return { ok: true, id: plan.order[0] };
  const named = plan.order.find((id) => plan.setups[id].name === wanted) ?? plan.order.find((id) => id === wanted);
  if (named !== undefined) return { ok: true, id: named };
  const names = plan.order.map((id) => `"${plan.setups[id].name}"`).join(', ');
  return { ok: false, sentence: `The plan has no setup "${wanted}". Its setups are ${names}.` };
}
