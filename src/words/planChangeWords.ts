/** What changed from one state of a plan to the next, in a line: for the list of its versions. */
import type { Piece, Plan } from '../plan/schema.ts';
import { listed, pieceName } from './names.ts';

/** So many names stand in a list; of more, how many more. */
const NAMED = 3;

const isSame = (a: unknown, b: unknown): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);

/** `Snare, Hi-hat, Crash and 4 more`. */
function few(names: readonly string[]): string {
  const different = [...new Set(names)];
  const shown = listed(different.slice(0, NAMED));
  return different.length <= NAMED ? shown : `${shown} and ${different.length - NAMED} more`;
}

const isMoved = (before: Piece, after: Piece): boolean => isSame({ ...before, place: after.place }, after);

/** One setup, in order of weight: what was added, removed, moved, changed otherwise. */
function setupLines(before: Plan, after: Plan, setupId: string): string[] {
  const was = before.setups[setupId];
  const is = after.setups[setupId];
  const names = (plan: Plan, ids: readonly string[]) => few(ids.map((id) => pieceName(plan, setupId, id)));
  const both = is.order.filter((id) => Object.hasOwn(was.pieces, id) && !isSame(was.pieces[id], is.pieces[id]));
  const groups: readonly [verb: string, plan: Plan, ids: readonly string[]][] = [
    ['added', after, is.order.filter((id) => !Object.hasOwn(was.pieces, id))],
    ['removed', before, was.order.filter((id) => !Object.hasOwn(is.pieces, id))],
    ['moved', after, both.filter((id) => isMoved(was.pieces[id], is.pieces[id]))],
    ['changed', after, both.filter((id) => !isMoved(was.pieces[id], is.pieces[id]))],
  ];
  const lines = groups.filter(([, , ids]) => ids.length > 0).map(([verb, plan, ids]) => `${names(plan, ids)} ${verb}`);
  if (was.name !== is.name) lines.unshift(`setup renamed “${is.name}”`);
  if (was.riser !== is.riser) lines.push('another riser');
  const rest = ({ pieces: _pieces, name: _name, riser: _riser, order: _order, ...others }: typeof was) => others;
  if (!isSame(rest(was), rest(is))) lines.push('stage, lists or note changed');
  if (lines.length === 0 && !isSame(was.order, is.order)) lines.push('pieces in another order');
  return lines;
}

const OTHERS: readonly [field: string, words: string][] = [
  ['risers', 'risers changed'],
  ['stages', 'stages changed'],
  ['gear', 'sizes of gear changed'],
  ['limits', 'limits changed'],
  ['units', 'other units'],
  ['partNotes', 'prices or notes of parts changed'],
];

/** `Crash 16" added; Snare moved`; with the setup's name where the plan has several. Empty: nothing changed. */
export function planChangeWords(before: Plan, after: Plan): string {
  const lines: string[] = [];
  if (before.name !== after.name) lines.push(`plan renamed “${after.name}”`);
  const setups = (of: Plan, than: Plan) =>
    of.order.filter((id) => !Object.hasOwn(than.setups, id)).map((id) => `“${of.setups[id].name}”`);
  const added = setups(after, before);
  const removed = setups(before, after);
  if (added.length > 0) lines.push(`setup ${few(added)} added`);
  if (removed.length > 0) lines.push(`setup ${few(removed)} removed`);
  for (const id of after.order) {
    if (!Object.hasOwn(before.setups, id) || isSame(before.setups[id], after.setups[id])) continue;
    const found = setupLines(before, after, id);
    if (found.length > 0)
      lines.push(`${after.order.length > 1 ? `in “${after.setups[id].name}”: ` : ''}${found.join(', ')}`);
  }
  for (const [field, words] of OTHERS) if (!isSame(before[field], after[field])) lines.push(words);
  if (lines.length === 0 && !isSame(before, after)) lines.push('notes or order changed');
  const line = lines.join('; ');
  return line.charAt(0).toUpperCase() + line.slice(1);
}
