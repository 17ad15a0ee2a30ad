/**
 * Undo and redo as plain values: every function answers with a new history and leaves the old one as it was.
 *
 * An entry keeps the patches there and back, and the selection that its gesture began with. Steps that share a gesture
 * (arrow keys held down, a field dragged) become one entry.
 */
import type { Patch } from 'immer';
import type { Command } from './commands/index.ts';
import type { Refusal } from './commands/rule.ts';
import { patched, runCommand } from './run.ts';
import type { Plan } from './schema.ts';

export type Selection = readonly string[];

export interface Entry {
  readonly patches: readonly Patch[];
  readonly inverse: readonly Patch[];
  /** Piece ids selected when it began. */
  readonly selection: Selection;
  readonly gesture: string | null;
  /** The command that began it, for a name in the menu. */
  readonly command: Command['type'] | 'bringBack';
}

export interface History {
  readonly plan: Plan;
  readonly past: readonly Entry[];
  /** The next to redo is the last. */
  readonly future: readonly Entry[];
}

/** Entries kept; older ones are forgotten. A long evening's work, and a few megabytes at the very most. */
export const HISTORY_LENGTH = 1000;

export function emptyHistory(plan: Plan): History {
  return { plan, past: [], future: [] };
}

export type Pushed =
  | { readonly ok: true; readonly history: History }
  | { readonly ok: false; readonly refusal: Refusal };

/** Where every patch of both lists replaces a value at the same places, the later one says it all. */
function samePlaces(a: readonly Patch[], b: readonly Patch[]): boolean {
  const places = (patches: readonly Patch[]) => patches.map((patch) => patch.path.join('\u0000')).sort();
  const replaces = (patch: Patch) => patch.op === 'replace';
  if (a.length !== b.length || !a.every(replaces) || !b.every(replaces)) return false;
  const other = places(b);
  return places(a).every((place, i) => place === other[i]);
}

function merged(first: Entry, then: Entry): Entry {
  if (samePlaces(first.patches, then.patches)) return { ...first, patches: then.patches };
  return { ...first, patches: [...first.patches, ...then.patches], inverse: [...then.inverse, ...first.inverse] };
}

/** Carry out a command and remember it. A command that changes nothing leaves no entry. */
export function push(
  history: History,
  command: Command,
  { gesture, selection = [] }: { gesture?: string; selection?: Selection } = {},
): Pushed {
  const ran = runCommand(history.plan, command);
  if (!ran.ok) return ran;
  if (ran.patches.length === 0) return { ok: true, history };
  const { patches, inverse } = ran;
  const entry: Entry = { patches, inverse, selection, gesture: gesture ?? null, command: command.type };
  const last = history.past[history.past.length - 1];
  // After an undo the gesture is over, even if its name comes again.
  const goesOn = last !== undefined && gesture !== undefined && last.gesture === gesture && history.future.length === 0;
  const past = goesOn ? [...history.past.slice(0, -1), merged(last, entry)] : [...history.past, entry];
  return { ok: true, history: { plan: ran.plan, past: past.slice(-HISTORY_LENGTH), future: [] } };
}

/** The history one step back or on, and the selection to show: null when there was no step. */
export interface Stepped {
  readonly history: History;
  readonly selection: Selection | null;
}

/** The whole plan as it was in another state of it, as one step. */
export function bringBack(history: History, plan: Plan, selection: Selection): History {
  const whole = (value: Plan): Patch[] => [{ op: 'replace', path: [], value }];
  const entry: Entry = {
    patches: whole(plan),
    inverse: whole(history.plan),
    selection,
    gesture: null,
    command: 'bringBack',
  };
  return { plan, past: [...history.past, entry].slice(-HISTORY_LENGTH), future: [] };
}

export function undo(history: History): Stepped {
  const entry = history.past[history.past.length - 1];
  if (entry === undefined) return { history, selection: null };
  const plan = patched(history.plan, entry.inverse);
  return {
    history: { plan, past: history.past.slice(0, -1), future: [...history.future, entry] },
    selection: entry.selection,
  };
}

export function redo(history: History): Stepped {
  const entry = history.future[history.future.length - 1];
  if (entry === undefined) return { history, selection: null };
  const plan = patched(history.plan, entry.patches);
  return {
    history: { plan, past: [...history.past, entry], future: history.future.slice(0, -1) },
    selection: entry.selection,
  };
}
