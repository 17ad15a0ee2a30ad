/**
 * What the checks say, all together. A finding is a value of a union, told apart by its `code`; its sentence stands
 * beside the code in its check's file and gets names and units in words/sentences.ts, once for page, sheets and reports.
 */
import type { State } from './codes.ts';
import type { Checked } from './run.ts';

export type { State } from './codes.ts';

export type Finding = Checked['findings'][number];
export type CheckName = Finding['check'];

/**
 * How far a finding stays on the good side of its limit, as a share of the limit: 0 at it, -0.2 a fifth beyond, whatever
 * unit and sense. Against a limit of 0 anything is infinitely more or less; Infinity also where there is no number or no limit.
 */
export function share({ value, limit, sense }: Pick<Finding, 'value' | 'limit' | 'sense'>): number {
  if (value === null || limit === null || sense === null) return Number.POSITIVE_INFINITY;
  const room = sense === 'atLeast' ? value - limit : limit - value;
  return room === 0 ? 0 : room / Math.abs(limit);
}

/** Nearest to trouble first: by share of the limit; where limits of 0 leave no shares, by the number itself, unit by unit. */
export function byTrouble(a: Finding, b: Finding): number {
  const [p, q] = [share(a), share(b)];
  if (p !== q) return p < q ? -1 : 1;
  if (Number.isFinite(p)) return 0;
  if (a.unit !== b.unit) return a.unit < b.unit ? -1 : 1;
  const worse = ({ value, sense }: Finding) => (value ?? 0) * (sense === 'atMost' ? -1 : 1);
  return worse(a) - worse(b);
}

export function countByState(findings: readonly Pick<Finding, 'state'>[]): Record<State, number> {
  const counts: Record<State, number> = { blocked: 0, tight: 0, unmeasured: 0, clear: 0 };
  for (const { state } of findings) counts[state]++;
  return counts;
}
