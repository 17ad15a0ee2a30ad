/**
 * Rules over a whole plan that its schema cannot say: what names what, and whether it is there. SPEC.md lists them by id.
 *
 * Inputs: a plan that the schema accepts. Result: the first problem in reading order, or null.
 */

import { gearOf } from '../gear/catalogue.ts';
import { kindOf } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import { mountProblem } from './mountRules.ts';
import { firstOf, own, type Path, type Problem, problemAt, quoted } from './places.ts';
import { doubledId, gearMisfit, rackProblem } from './rackRules.ts';
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
  const wrong = (reason: string) => problemAt(plan, path, 'order_differs', reason);
  for (const id of order) {
    if (seen.has(id)) return wrong(`the order names ${word} ${quoted(id)} twice.`);
    if (!Object.hasOwn(record, id)) return wrong(`the order names ${word} ${quoted(id)}, which is not there.`);
    seen.add(id);
  }
  const left = Object.keys(record).find((id) => !seen.has(id));
  return left === undefined ? null : wrong(`${word} ${quoted(left)} is missing from the order.`);
}

/** PL-2 an entry's own id is the key it stands under. `changed`: the only keys worth a look, null for all. */
function keyProblem(
  plan: Plan,
  path: Path,
  record: Readonly<Record<string, { id: string }>>,
  changed: readonly string[] | null = null,
): Problem | null {
  return firstOf(changed ?? Object.keys(record), (key) => {
    const { id } = record[key];
    if (id === key) return null;
    return problemAt(
      plan,
      [...path, key],
      'id_differs',
      `its id is ${quoted(id)}, but it stands under ${quoted(key)}.`,
    );
  });
}

/** PL-5 and PL-7 for deck modules. */
function riserProblem(plan: Plan, riser: Riser, gear: GearLookup): Problem | null {
  const path = ['risers', riser.id, 'modules'];
  return firstOf(
    riser.modules.entries(),
    ([i, { gear: id }]) =>
      doubledProblem(plan, path, riser.modules.slice(0, i + 1), 'module of this riser') ??
      (id === undefined ? null : gearMisfit({ plan, gear }, [...path, i, 'gear'], id, ['deck'])),
  );
}

/** PL-15 an arm that can be no longer than nothing reaches nothing. `reason` goes on after the place and a colon. */
export function armFlaw(gear: Gear): { code: string; reason: string } | null {
  const longest = kindOf(gear).arm?.longestMm(gear) ?? null;
  if (longest === null || longest > 0) return null;
  const what =
    gear.kind === 'link' ? 'the link can be no longer than 0' : 'its post and its arm can be no longer than 0';
  return { code: 'arm_without_length', reason: `${what}, so it reaches nothing.` };
}

/** A record with more entries than may be; what is no record is for the schema to say. */
export function tooMany(root: unknown, path: Path, record: unknown, words: string, most: number): Problem | null {
  const count = typeof record === 'object' && record !== null ? Object.keys(record).length : 0;
  return count > most ? problemAt(root, path, 'too_many', `it has ${count} ${words}, and the most is ${most}.`) : null;
}

/** PL-16 counts that the schema does not hold. */
function countProblem(plan: Plan): Problem | null {
  return (
    tooMany(plan, [], plan.setups, 'setups', LIMITS.setups) ??
    tooMany(plan, [], plan.risers, 'risers', LIMITS.risers) ??
    tooMany(plan, [], plan.stages, 'stages', LIMITS.stages) ??
    tooMany(plan, [], plan.drummers, 'drummers', LIMITS.drummers) ??
    tooMany(plan, [], plan.gear, 'own gear entries', LIMITS.gear) ??
    firstOf(Object.entries(plan.setups), ([id, { pieces }]) =>
      tooMany(plan, ['setups', id], pieces, 'pieces', LIMITS.pieces),
    )
  );
}

const doubledProblem = (plan: Plan, path: Path, list: Parameters<typeof doubledId>[1], of: string) =>
  doubledId(plan, list, (i) => [...path, i], of);

const listProblem = (plan: Plan, path: Path, setup: Setup): Problem | null =>
  doubledProblem(plan, [...path, 'inputs'], setup.inputs, 'input of this setup') ??
  doubledProblem(plan, [...path, 'mixes'], setup.mixes, 'mix of this setup') ??
  doubledProblem(plan, [...path, 'cables'], setup.cables, 'cable run of this setup');

const stageProblem = (plan: Plan, stage: Stage): Problem | null =>
  doubledProblem(plan, ['stages', stage.id, 'wings'], stage.wings, 'wing of this stage');

/** The pieces that are not the same objects as before; null where pieces came or went, or stand in another order. */
function changedPieces(setup: Setup, before: Setup | undefined): readonly string[] | null {
  if (before?.order !== setup.order) return null;
  const changed: string[] = [];
  for (const id of setup.order) {
    const piece = own(setup.pieces, id);
    if (piece === undefined) return null;
    if (piece !== own(before.pieces, id)) changed.push(id);
  }
  return Object.keys(setup.pieces).length === setup.order.length ? changed : null;
}

/** The first thing wrong within one setup. `before`: the setup as it was, known to keep every rule under the same gear. */
function setupProblem(plan: Plan, id: string, gear: GearLookup, before?: Setup): Problem | null {
  const setup = plan.setups[id];
  const path = ['setups', id];
  const changed = changedPieces(setup, before);
  // PL-3, PL-17, PL-19
  const problem = (what: 'riser' | 'stage' | 'drummer', id: string, how: string) =>
    problemAt(plan, path, `unknown_${what}`, `${how} ${what} ${quoted(id)}, which is not in this plan.`);
  const standsOn = (what: 'riser' | 'stage', record: Readonly<Record<string, unknown>> = {}) => {
    const on = setup[what];
    if (typeof on !== 'string' || own(record, on) !== undefined) return null;
    return problem(what, on, 'it stands on');
  };
  return (
    keyProblem(plan, [...path, 'pieces'], setup.pieces, changed) ??
    (changed === null ? orderProblem(plan, path, setup.order, setup.pieces, 'piece') : null) ??
    standsOn('riser', plan.risers) ??
    standsOn('stage', plan.stages) ??
    (setup.drummer && own(plan.drummers ?? {}, setup.drummer) === undefined
      ? problem('drummer', setup.drummer, 'it is set for')
      : null) ??
    listProblem(plan, path, setup) ??
    firstOf(changed ?? setup.order, (pieceId) => {
      const piece = setup.pieces[pieceId];
      return piece.kind === 'rack' ? rackProblem({ plan, path: [...path, 'pieces', pieceId], gear }, piece) : null;
    }) ??
    mountProblem({ plan, setup, path, gear }, before && changed ? { setup: before, changed } : undefined)
  );
}

/** The first thing wrong outside the setups. `before`: a plan that keeps every rule; what is the same object there is spared. */
function documentProblem(plan: Plan, gear: GearLookup, before?: Plan): Problem | null {
  const sameGear = before?.gear === plan.gear;
  /** Entries that are not as they were; all of them where what they name may be gone. */
  const changed = <T>(now: Readonly<Record<string, T>> = {}, was: Readonly<Record<string, T>> = {}): T[] =>
    sameGear && now === was
      ? []
      : Object.values(now).filter((entry) => !sameGear || !Object.values(was).includes(entry));
  return (
    countProblem(plan) ??
    keyProblem(plan, ['setups'], plan.setups) ??
    orderProblem(plan, [], plan.order, plan.setups, 'setup') ??
    keyProblem(plan, ['risers'], plan.risers) ??
    keyProblem(plan, ['stages'], plan.stages ?? {}) ??
    keyProblem(plan, ['drummers'], plan.drummers ?? {}) ??
    (sameGear ? null : keyProblem(plan, ['gear'], plan.gear)) ??
    firstOf(changed(plan.risers, before?.risers), (riser) => riserProblem(plan, riser, gear)) ??
    firstOf(changed(plan.stages, before?.stages), (stage) => stageProblem(plan, stage)) ??
    firstOf(sameGear ? [] : Object.values(plan.gear), (entry) => {
      const flaw = armFlaw(entry);
      return flaw && problemAt(plan, ['gear', entry.id], flaw.code, flaw.reason);
    })
  );
}

/**
 * The first rule that a plan breaks, or null.
 * `before`, a plan known to keep every rule, spares the setups that have not changed since (compared by identity).
 */
export function planProblem(plan: Plan, before?: Plan): Problem | null {
  const gear: GearLookup = (id) => gearOf(plan.gear, id);
  const wrong = documentProblem(plan, gear, before);
  if (wrong) return wrong;
  const allChanged =
    before === undefined ||
    before.gear !== plan.gear ||
    before.risers !== plan.risers ||
    before.stages !== plan.stages ||
    before.drummers !== plan.drummers;
  return firstOf(plan.order, (id) => {
    const known = allChanged ? undefined : own(before.setups, id);
    return known === plan.setups[id] ? null : setupProblem(plan, id, gear, known);
  });
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
