/** What things are called: kinds of bodies, pieces, gear. The one place, for page, sheets and reports. */

import type { Load } from '../checks/loads.ts';
import { BODY_KINDS, type BodyKind } from '../gear/bodyKinds.ts';
import { gearOf } from '../gear/catalogue.ts';
import type { Plan } from '../plan/schema.ts';

export const kindWord = (kind: BodyKind): string => BODY_KINDS[kind].word;

/** `1 link`, `2 links`. */
export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** Names one after the other; with semicolons where one of them has a comma of its own, as `Side rack, hi-hat` has. */
export const listed = (names: readonly string[]): string =>
  names.join(names.some((name) => name.includes(',')) ? '; ' : ', ');

/** What a piece is called: its own name, its gear's, or its id. */
export function pieceName(plan: Plan, setupId: string, id: string): string {
  const piece = plan.setups[setupId]?.pieces[id];
  if (!piece) return id;
  if (piece.name) return piece.name;
  return (piece.kind === 'item' ? gearOf(plan.gear, piece.gear)?.name : 'Rack') ?? id;
}

/** What a load that travels is called: as the plan names it, else by what is in it. */
export function loadName(plan: Plan, setupId: string, { id, name, pieces }: Load): string {
  if (name !== null) return name;
  if (pieces.length > 1) return 'Cymbal bag';
  const own = pieceName(plan, setupId, id);
  return plan.setups[setupId]?.pieces[id]?.kind === 'rack' ? `Frame of ${own}` : own;
}

/** What gear is called: its name, or its id where neither the plan nor the catalogue has it. */
export const gearName = (plan: Plan, id: string): string => gearOf(plan.gear, id)?.name ?? id;
