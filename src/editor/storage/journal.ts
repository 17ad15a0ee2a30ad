/**
 * A plan's journal: each change since its text was last written, a few bytes each, so that a page that is ended in the middle of
 * the work has lost nothing that was finished.
 *
 * Changes are read off two plans, whoever made the second: a command, undo, redo, a version that was brought back. What two plans
 * share as one object is passed over, so a change costs what it touches.
 */
import { own } from '../../plan/places.ts';
import type { Plan } from '../../plan/schema.ts';

/** The place of a value, and the value; without one, it is gone. A list is one value. */
export type Change = readonly [path: readonly string[], value: unknown] | readonly [path: readonly string[]];

export type Fields = Readonly<Record<string, unknown>>;

export const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((each, k) => isSame(each, b[k]));
  if (!isFields(a) || !isFields(b)) return false;
  const names = Object.keys(a);
  return (
    names.length === Object.keys(b).length && names.every((name) => Object.hasOwn(b, name) && isSame(a[name], b[name]))
  );
}

function collect(before: Fields, after: Fields, at: readonly string[], into: Change[]): void {
  for (const name of Object.keys(before)) if (own(after, name) === undefined) into.push([[...at, name]]);
  for (const name of Object.keys(after)) {
    const was = own(before, name);
    const is = after[name];
    if (was === is || is === undefined) continue;
    if (isFields(was) && isFields(is)) collect(was, is, [...at, name], into);
    else if (!isSame(was, is)) into.push([[...at, name], is]);
  }
}

/** What turns one plan into the other. */
export function changesBetween(before: Plan, after: Plan): Change[] {
  const changes: Change[] = [];
  if (before !== after) collect(before as unknown as Fields, after as unknown as Fields, [], changes);
  return changes;
}

/** How far a plan has come: changes since it was begun, and a checksum of what they were. */
export interface JournalPoint {
  readonly n: number;
  readonly sum: number;
}

export const BEGINNING: JournalPoint = { n: 0, sum: 0 };

export const isSamePoint = (a: JournalPoint, b: JournalPoint): boolean => a.n === b.n && a.sum === b.sum;

/** One line of the journal: the change that led to point `n`, `sum`. `changes` is JSON. */
export interface JournalEntry extends JournalPoint {
  readonly plan: string;
  readonly changes: string;
}

/** FNV-1a in 32 bits over UTF-16 units (RFC 9923 counts bytes), from where another sum ended. */
export function sumOf(from: number, text: string): number {
  let sum = (0x811c9dc5 ^ from) >>> 0;
  for (let k = 0; k < text.length; k++) sum = Math.imul(sum ^ text.charCodeAt(k), 0x01000193) >>> 0;
  return sum;
}

/** The line that follows a point, or null where nothing changed. */
export function nextEntry(plan: string, at: JournalPoint, before: Plan, after: Plan): JournalEntry | null {
  const list = changesBetween(before, after);
  if (list.length === 0) return null;
  const changes = JSON.stringify(list);
  return { plan, n: at.n + 1, sum: sumOf(at.sum, changes), changes };
}
