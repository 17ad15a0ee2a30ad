/** A plan with its journal carried out on it, and on no other base. It comes when there is a journal: most visits find none. */
import { readPlan } from '../../plan/read.ts';
import type { Plan } from '../../plan/schema.ts';
import { writePlan } from '../../plan/write.ts';
import { type Change, type Fields, isFields, type JournalEntry, type JournalPoint, sumOf } from './journal.ts';

/** Throws: RangeError where the place of a change is not there; the plan given stays as it was. */
export function withChanges(plan: Plan, changes: readonly Change[]): Plan {
  let whole: unknown = plan;
  for (const change of changes) {
    const [path] = change;
    const set = (value: unknown, depth: number): Fields => {
      if (!isFields(value)) throw new RangeError(`There is no ${path.slice(0, depth).join('.')} in the plan.`);
      const name = path[depth];
      const fields = new Map(Object.entries(value));
      if (depth < path.length - 1) fields.set(name, set(fields.get(name), depth + 1));
      else if (change.length === 2) fields.set(name, change[1]);
      else fields.delete(name);
      // Unlike an assignment, this takes any name for a field.
      return Object.fromEntries(fields);
    };
    whole = set(whole, 0);
  }
  return whole as Plan;
}

export type Replayed =
  | {
      readonly ok: true;
      readonly plan: Plan;
      readonly at: JournalPoint;
      /** Lines carried out, and lines that did not fit and were not. */
      readonly count: number;
      readonly unfit: number;
    }
  | { readonly ok: false; readonly sentence: string };

/**
 * The plan with the lines of its journal carried out, in the order of their numbers. A line whose number or checksum does not
 * follow from what is before it ends the journal: it was made on another base, and nothing after it is carried out. What comes
 * out is a plan that reads, or as many lines fewer as it takes.
 */
export function replay(text: string, from: JournalPoint, journal: readonly JournalEntry[]): Replayed {
  const read = readPlan(text);
  if (!read.ok) return { ok: false, sentence: read.problem.sentence };
  const lines = journal.filter(({ n }) => n > from.n).sort((a, b) => a.n - b.n);
  /** The plan after none, one, two ... lines, for as long as they fit. */
  const steps: { readonly plan: Plan; readonly at: JournalPoint }[] = [{ plan: read.plan, at: from }];
  for (const { n, sum, changes } of lines) {
    const { plan, at } = steps[steps.length - 1];
    if (n !== at.n + 1 || sum !== sumOf(at.sum, changes)) break;
    try {
      steps.push({ plan: withChanges(plan, JSON.parse(changes)), at: { n, sum } });
    } catch {
      break;
    }
  }
  /** Read anew only where something was carried out; the longest part of the journal that makes a plan. */
  const reads = (count: number) => count === 0 || readPlan(writePlan(steps[count].plan)).ok;
  let count = steps.length - 1;
  if (!reads(count)) {
    let good = 0;
    while (count - good > 1) {
      const middle = (good + count) >> 1;
      if (reads(middle)) good = middle;
      else count = middle;
    }
    count = good;
  }
  return { ok: true, ...steps[count], count, unfit: lines.length - count };
}
