/**
 * Rules over a whole plan that its schema cannot say: what names what, and whether it is there. SPEC.md lists them by id.
 *
 * Inputs: a plan that the schema accepts. Result: the first problem in reading order, or null.
 */

import { gearOf } from '../gear/catalogue.ts';
import { kindOf } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import { mountProblem } from './mountRules.ts';
import { own, type Path, type Problem, problemAt, quoted } from './places.ts';
import { gearMisfit, rackProblem } from './rackRules.ts';
import { LIMITS, type Plan, type Riser, type Setup, type Stage } from './schema.ts';

type GearLookup = (id: string) => Gear | undefined;

/** PL-1 an order list names every entry of its record once, and nothing else. */
function orderProblem(
  plan: Plan,
  path: Path,
  order: readonly string[],
  record: Readonly<Record<string, unknown>>,
  word: string,
): Problem | null {
  const seen = new Set<string>();
  for (const id of order) {
    if (seen.has(id)) return problemAt(plan, path, 'order_differs', `the order names ${word} ${quoted(id)} twice.`);
    if (!Object.hasOwn(record, id))
      return problemAt(plan, path, 'order_differs', `the order names ${word} ${quoted(id)}, which is not there.`);
    seen.add(id);
  }
  for (const id of Object.keys(record))
    if (!seen.has(id))
      return problemAt(plan, path, 'order_differs', `${word} ${quoted(id)} is missing from the order.`);
  return null;
}

/** PL-2 an entry's own id is the key it stands under. */
function keyProblem(plan: Plan, path: Path, record: Readonly<Record<string, { id: string }>>): Problem | null {
  for (const [key, entry] of Object.entries(record))
    if (entry.id !== key)
      return problemAt(
        plan,
        [...path, key],
        'id_differs',
        `its id is ${quoted(entry.id)}, but it stands under ${quoted(key)}.`,
      );
  return null;
}

/** PL-5 and PL-7 for deck modules. */
function riserProblem(plan: Plan, riser: Riser, gear: GearLookup): Problem | null {
  const ids = new Set<string>();
  for (const [i, module] of riser.modules.entries()) {
    const path = ['risers', riser.id, 'modules', i];
    if (ids.has(module.id))
      return problemAt(
        plan,
        path,
        'doubled_id',
        `another module of this riser has its id ${quoted(module.id)} already.`,
      );
    ids.add(module.id);
    const wrong =
      module.gear === undefined ? null : gearMisfit({ plan, gear }, [...path, 'gear'], module.gear, ['deck']);
    if (wrong) return wrong;
  }
  return null;
}

/** PL-15 an arm that can be no longer than nothing reaches nothing. `reason` goes on after the place and a colon. */
export function armFlaw(gear: Gear): { code: string; reason: string } | null {
  const longest = kindOf(gear).arm?.longestMm(gear) ?? null;
  if (longest === null || longest > 0) return null;
  const what =
    gear.kind === 'link' ? 'the link can be no longer than 0' : 'its post and its arm can be no longer than 0';
  return { code: 'arm_without_length', reason: `${what}, so it reaches nothing.` };
}

/** PL-16 counts that the schema does not hold. */
function countProblem(plan: Plan): Problem | null {
  const counts = [
    ['setups', plan.setups, LIMITS.setups],
    ['risers', plan.risers, LIMITS.risers],
    ['stages', plan.stages ?? {}, LIMITS.stages],
    ['own gear entries', plan.gear, LIMITS.gear],
  ] as const;
  for (const [words, record, most] of counts) {
    const count = Object.keys(record).length;
    if (count > most) return problemAt(plan, [], 'too_many', `it has ${count} ${words}, and the most is ${most}.`);
  }
  for (const [id, setup] of Object.entries(plan.setups)) {
    const count = Object.keys(setup.pieces).length;
    if (count > LIMITS.pieces)
      return problemAt(plan, ['setups', id], 'too_many', `it has ${count} pieces, and the most is ${LIMITS.pieces}.`);
  }
  return null;
}

/** PL-18 entries of a list have ids of their own; `where` says whose list it is. */
function doubledProblem(
  plan: Plan,
  path: Path,
  list: readonly { readonly id: string }[] | undefined,
  where: string,
): Problem | null {
  const ids = new Set<string>();
  for (const [i, { id }] of (list ?? []).entries()) {
    if (ids.has(id))
      return problemAt(plan, [...path, i], 'doubled_id', `another ${where} has its id ${quoted(id)} already.`);
    ids.add(id);
  }
  return null;
}

const listProblem = (plan: Plan, path: Path, setup: Setup): Problem | null =>
  doubledProblem(plan, [...path, 'inputs'], setup.inputs, 'input of this setup') ??
  doubledProblem(plan, [...path, 'mixes'], setup.mixes, 'mix of this setup') ??
  doubledProblem(plan, [...path, 'cables'], setup.cables, 'cable run of this setup');

const stageProblem = (plan: Plan, stage: Stage): Problem | null =>
  doubledProblem(plan, ['stages', stage.id, 'wings'], stage.wings, 'wing of this stage');

/** The first thing wrong within one setup. `before`: the setup as it was, known to keep every rule under the same gear. */
function setupProblem(plan: Plan, id: string, gear: GearLookup, before?: Setup): Problem | null {
  const setup = plan.setups[id];
  const path = ['setups', id];
  const wrong =
    keyProblem(plan, [...path, 'pieces'], setup.pieces) ?? orderProblem(plan, path, setup.order, setup.pieces, 'piece');
  if (wrong) return wrong;
  // PL-3
  if (setup.riser !== null && own(plan.risers, setup.riser) === undefined)
    return problemAt(
      plan,
      path,
      'unknown_riser',
      `it stands on riser ${quoted(setup.riser)}, which is not in this plan.`,
    );
  // PL-17
  if (typeof setup.stage === 'string' && own(plan.stages ?? {}, setup.stage) === undefined)
    return problemAt(
      plan,
      path,
      'unknown_stage',
      `it stands on stage ${quoted(setup.stage)}, which is not in this plan.`,
    );
  const doubled = listProblem(plan, path, setup);
  if (doubled) return doubled;
  for (const pieceId of setup.order) {
    const piece = setup.pieces[pieceId];
    if (piece.kind !== 'rack') continue;
    const rack = rackProblem({ plan, path: [...path, 'pieces', pieceId], gear }, piece);
    if (rack) return rack;
  }
  return mountProblem({ plan, setup, path, gear }, before);
}

/** The first thing wrong outside the setups. */
function documentProblem(plan: Plan, gear: GearLookup): Problem | null {
  const wrong =
    countProblem(plan) ??
    keyProblem(plan, ['setups'], plan.setups) ??
    orderProblem(plan, [], plan.order, plan.setups, 'setup') ??
    keyProblem(plan, ['risers'], plan.risers) ??
    keyProblem(plan, ['stages'], plan.stages ?? {}) ??
    keyProblem(plan, ['gear'], plan.gear);
  if (wrong) return wrong;
  for (const riser of Object.values(plan.risers)) {
    const found = riserProblem(plan, riser, gear);
    if (found) return found;
  }
  for (const stage of Object.values(plan.stages ?? {})) {
    const found = stageProblem(plan, stage);
    if (found) return found;
  }
  for (const entry of Object.values(plan.gear)) {
    const flaw = armFlaw(entry);
    if (flaw) return problemAt(plan, ['gear', entry.id], flaw.code, flaw.reason);
  }
  return null;
}

/**
 * The first rule that a plan breaks, or null.
 * `before`, a plan known to keep every rule, spares the setups that have not changed since (compared by identity).
 */
export function planProblem(plan: Plan, before?: Plan): Problem | null {
  const gear: GearLookup = (id) => gearOf(plan.gear, id);
  const wrong = documentProblem(plan, gear);
  if (wrong) return wrong;
  const allChanged =
    before === undefined || before.gear !== plan.gear || before.risers !== plan.risers || before.stages !== plan.stages;
  for (const id of plan.order) {
    const known = allChanged ? undefined : own(before.setups, id);
    if (known === plan.setups[id]) continue;
    const found = setupProblem(plan, id, gear, known);
    if (found) return found;
  }
  return null;
}

/** Rounded up, so that what is too much never reads as the most. */
const megabytes = (bytes: number): string => `${Math.ceil(bytes / 1e5) / 10} MB`;

/** RD-6 for a plan as text: too long to be read? `place` says whose text it is. */
export function fileSizeProblem(text: string, place: string): Problem | null {
  // A character is at least a byte, so a long text need not be counted.
  const bytes = text.length > LIMITS.bytes ? text.length : new TextEncoder().encode(text).length;
  if (bytes <= LIMITS.bytes) return null;
  return {
    code: 'too_big',
    place,
    sentence: `${place} is ${megabytes(bytes)}, and the most is ${megabytes(LIMITS.bytes)}.`,
  };
}
