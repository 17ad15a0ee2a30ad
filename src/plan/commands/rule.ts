/**
 * What a command is: plain data with absolute values, so that it replays, logs and survives JSON; and the rule that
 * says when it is refused and what it writes.
 */
import type { Draft } from 'immer';
import { own, type Problem } from '../places.ts';
import type { Piece, Plan, Rack, Setup } from '../schema.ts';

/** Things that commands speak of by id. */
export type Named = 'setup' | 'piece' | 'riser' | 'stage' | 'drummer' | 'leg' | 'bar' | 'span' | 'gear';

/** Why a command was refused. A value: the sentence is made in words.ts. */
export type Refusal =
  /** `where`: the name of what should hold it; '' for the plan. */
  | { readonly code: 'unknown'; readonly what: Named; readonly id: string; readonly where: string }
  | { readonly code: 'id_taken'; readonly what: Named; readonly id: string }
  | { readonly code: 'id_unusable'; readonly id: string }
  | { readonly code: 'not_a_rack'; readonly piece: string }
  | { readonly code: 'not_an_item'; readonly piece: string }
  | { readonly code: 'piece_locked'; readonly piece: string }
  | { readonly code: 'last_setup'; readonly setup: string }
  | { readonly code: 'last_bar'; readonly rack: string }
  | { readonly code: 'two_legs_left'; readonly rack: string }
  | { readonly code: 'inner_leg'; readonly rack: string }
  | { readonly code: 'no_direction'; readonly rack: string }
  | { readonly code: 'order_differs'; readonly what: 'setup' | 'piece' }
  | { readonly code: 'gear_in_use'; readonly gear: string; readonly setup: string; readonly piece: string }
  /** With that arm a piece in a socket of the old one has none. `piece`, `of`: their names; `arm`: a gear id. */
  | { readonly code: 'socket_lost'; readonly piece: string; readonly of: string; readonly arm: string }
  | { readonly code: 'nothing_asked' }
  /** What would come of it is not a plan: the problem says why, with its place. */
  | { readonly code: 'breaks_plan'; readonly problem: Problem };

export interface Rule<C> {
  /** Null when the command can be carried out. Looks only; what the whole plan would say is asked in run.ts. */
  refuse(plan: Plan, command: C): Refusal | null;
  /** Writes into a draft of `plan`. Called only when `refuse` answered null. */
  apply(draft: Draft<Plan>, command: C, plan: Plan): void;
}

/** A rule for each of some commands, by type. */
export type RulesOf<C extends { readonly type: string }> = { [K in C['type']]: Rule<Extract<C, { type: K }>> };

/** What commands on a setup, on one of its pieces, and on a rack of it have in common. */
export interface OnSetup<T extends string> {
  readonly type: T;
  readonly setup: string;
}
export interface OnPiece<T extends string> extends OnSetup<T> {
  readonly piece: string;
}
export interface OnRack<T extends string> extends OnSetup<T> {
  readonly rack: string;
}

const UNUSABLE = new Set(['__proto__', 'constructor', 'prototype', '']);

/** A new id that is free and fit to be a key, or why not. */
export function refuseNewId(what: Named, id: string, taken: boolean): Refusal | null {
  if (UNUSABLE.has(id)) return { code: 'id_unusable', id };
  return taken ? { code: 'id_taken', what, id } : null;
}

/** Something of the plan's own that must be there. */
export const refuseUnknown = (
  what: Named,
  record: Readonly<Record<string, unknown>> | undefined,
  id: string,
): Refusal | null => (own(record ?? {}, id) ? null : { code: 'unknown', what, id, where: '' });

export const refuseSetup = (plan: Plan, setup: string): Refusal | null => refuseUnknown('setup', plan.setups, setup);

export const NOTHING_ASKED: Refusal = { code: 'nothing_asked' };

/** A change that sets nothing. */
export const refuseEmpty = (set: object): Refusal | null =>
  Object.values(set).every((value) => value === undefined) ? NOTHING_ASKED : null;

type Found<T> = { readonly refusal: Refusal } | { readonly refusal: null; readonly setup: Setup; readonly piece: T };

/** A piece of a setup, or why it cannot be had. */
export function findPiece(plan: Plan, setupId: string, pieceId: string): Found<Piece> {
  const refusal = refuseSetup(plan, setupId);
  if (refusal) return { refusal };
  const setup = plan.setups[setupId];
  const piece = own(setup.pieces, pieceId);
  if (!piece) return { refusal: { code: 'unknown', what: 'piece', id: pieceId, where: setup.name } };
  return { refusal: null, setup, piece };
}

/** A rack that may be changed: there, a rack, and not locked. */
function findFreeRack(plan: Plan, setupId: string, rackId: string): Found<Rack> {
  const found = findPiece(plan, setupId, rackId);
  if (found.refusal) return found;
  const { setup, piece } = found;
  if (piece.kind !== 'rack') return { refusal: { code: 'not_a_rack', piece: piece.name } };
  if (piece.locked) return { refusal: { code: 'piece_locked', piece: piece.name } };
  return { refusal: null, setup, piece };
}

/** Pieces that may be moved or taken away: some, all there and none locked. */
export function refusePieces(plan: Plan, setup: string, pieces: readonly string[]): Refusal | null {
  if (pieces.length === 0) return refuseSetup(plan, setup) ?? NOTHING_ASKED;
  for (const id of pieces) {
    const found = findPiece(plan, setup, id);
    if (found.refusal) return found.refusal;
    if (found.piece.locked) return { code: 'piece_locked', piece: found.piece.name };
  }
  return null;
}

/** When a command on a rack is refused: where the rack may not be changed, else as `refuse` has it. */
export const onFreeRack =
  <C extends OnRack<string>>(refuse: (rack: Rack, command: C) => Refusal | null): Rule<C>['refuse'] =>
  (plan, command) => {
    const found = findFreeRack(plan, command.setup, command.rack);
    return found.refusal ?? refuse(found.piece, command);
  };

/** The draft's rack: what refuse() has made sure of. */
export function draftRack(draft: Draft<Plan>, setup: string, rack: string): Draft<Rack> {
  return draft.setups[setup].pieces[rack] as Draft<Rack>;
}

/** Records of the plan's own that are left out while they are empty. */
type Shelf = 'stages' | 'drummers';
type Shelves = { [S in Shelf]?: Readonly<Record<string, unknown>> };

export function putOn<S extends Shelf>(draft: Draft<Plan>, shelf: S, thing: NonNullable<Plan[S]>[string]): void {
  const shelves: Shelves = draft;
  shelves[shelf] = { ...shelves[shelf], [thing.id]: thing };
}

export function takeOff(draft: Draft<Plan>, shelf: Shelf, id: string): void {
  const shelves: Shelves = draft;
  const { [id]: _, ...rest } = shelves[shelf] ?? {};
  if (Object.keys(rest).length > 0) shelves[shelf] = rest;
  else delete shelves[shelf];
}

/** Write fields into a target: undefined leaves a field as it is, null in a field of `removable` takes it away. */
export function writeFields<T extends object>(
  target: T,
  fields: Readonly<Record<string, unknown>>,
  allowed: readonly string[],
  removable: readonly string[] = [],
): void {
  const record = target as Record<string, unknown>;
  for (const key of allowed) {
    if (!Object.hasOwn(fields, key) || fields[key] === undefined) continue;
    if (fields[key] === null && removable.includes(key)) delete record[key];
    else record[key] = fields[key];
  }
}
