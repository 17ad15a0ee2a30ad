/**
 * Carrying out commands: the one place where plans change, and where the patches for undo are made.
 *
 * A command is refused by its own rule, or because what would come of it is no plan that readPlan() would read. So every
 * plan that exists in the program can be written and read again (with very long notes, a plan of few pieces might not: see
 * FEW_PIECES).
 */
import { applyPatches, enablePatches, type Patch, produceWithPatches } from 'immer';
import type * as z from 'zod/mini';
import { gearSchema } from '../gear/schema.ts';
import type { Command, SingleCommand } from './commands/index.ts';
import { RULES } from './commands/index.ts';
import type { Refusal, Rule } from './commands/rule.ts';
import { firstOf, own, type Path, type Problem, THE_PLAN } from './places.ts';
import { fileSizeProblem, planProblem } from './rules.ts';
import {
  drummerSchema,
  limitsSchema,
  type Plan,
  pieceSchema,
  planSchema,
  riserSchema,
  setupSchema,
  stageSchema,
} from './schema.ts';
import { schemaProblem } from './schemaWords.ts';
import { writePlan } from './write.ts';

enablePatches();

export type Ran =
  | { readonly ok: true; readonly plan: Plan; readonly patches: readonly Patch[]; readonly inverse: readonly Patch[] }
  | { readonly ok: false; readonly refusal: Refusal };

const ruleOf = (command: SingleCommand): Rule<SingleCommand> => RULES[command.type] as Rule<SingleCommand>;

/** The plan after a command, with patches there and back; or why not. The plan given is never changed. */
export function runCommand(plan: Plan, command: Command): Ran {
  const commands = command.type === 'many' ? command.commands : [command];
  if (commands.length === 0) return { ok: false, refusal: { code: 'nothing_asked' } };
  let after = plan;
  const patches: Patch[] = [];
  const inverse: Patch[] = [];
  for (const each of commands) {
    const rule = ruleOf(each);
    const refusal = rule.refuse(after, each);
    if (refusal) return { ok: false, refusal };
    // A copy: immer freezes what it takes in, and the caller's objects stay the caller's.
    const data = structuredClone(each);
    const before = after;
    const [next, there, back] = produceWithPatches(before, (draft) => rule.apply(draft, data, before));
    after = next;
    patches.push(...there);
    inverse.unshift(...back);
  }
  const problem = changeProblem(plan, after) ?? (commands.some(grows) ? sizeProblem(after) : null);
  return problem
    ? { ok: false, refusal: { code: 'breaks_plan', problem } }
    : { ok: true, plan: after, patches, inverse };
}

/** Commands that can make a file much longer. */
const GROWING: ReadonlySet<SingleCommand['type']> = new Set([
  'addPiece',
  'setPiece',
  'addSetup',
  'duplicateSetup',
  'addLeg',
  'addBar',
  'addRiser',
  'editRiser',
  'setLists',
  'setGear',
]);
const grows = (command: SingleCommand): boolean => GROWING.has(command.type);

/** Plans with fewer pieces and list entries come nowhere near the largest file, so their text is not made for every command. */
const FEW_PIECES = 300;

/** A plan that could be saved and not opened again would be worse than a refused command. */
function sizeProblem(plan: Plan): Problem | null {
  let pieces = 0;
  for (const { order, inputs = [], mixes = [], cables = [] } of Object.values(plan.setups))
    pieces += order.length + inputs.length + mixes.length + cables.length;
  return pieces < FEW_PIECES ? null : fileSizeProblem(writePlan(plan), THE_PLAN);
}

/** A plan with patches carried out: undo and redo. */
export function patched(plan: Plan, patches: readonly Patch[]): Plan {
  return applyPatches(plan, patches as Patch[]);
}

type Entries = Readonly<Record<string, unknown>>;

/** Its lists that are the same objects as before are emptied: the schema has seen them. */
const withoutSameLists = (is: Entries, was: Entries = {}): Entries =>
  Object.fromEntries(
    Object.entries(is).map(([field, value]) => [field, Array.isArray(value) && value === was[field] ? [] : value]),
  );

/** What is wrong with `after`, given that nothing is with `before`: only what changed is looked at by the schema. */
function changeProblem(before: Plan, after: Plan): Problem | null {
  if (before === after) return null;
  /** The first entry of a record that is not what it was, and not what it should be. */
  const changed = (schema: z.ZodMiniType, was: Entries = {}, is: Entries = {}, at: Path) =>
    was === is
      ? null
      : firstOf(Object.keys(is), (id) =>
          own(was, id) === is[id] ? null : schemaProblem(schema, is[id], after, [...at, id]),
        );
  // The document's own fields; the records are looked at entry by entry below.
  const bare = {
    ...after,
    setups: {},
    risers: {},
    gear: {},
    stages: undefined,
    drummers: undefined,
    limits: undefined,
  };
  const document = schemaProblem(planSchema, bare, after, []);
  if (document) return document;
  if (after.limits !== undefined && after.limits !== before.limits) {
    const wrong = schemaProblem(limitsSchema, after.limits, after, ['limits']);
    if (wrong) return wrong;
  }
  const entries = [
    ['risers', riserSchema],
    ['stages', stageSchema],
    ['drummers', drummerSchema],
    ['gear', gearSchema],
  ] as const;
  return (
    firstOf(entries, ([record, schema]) => changed(schema, before[record], after[record], [record])) ??
    firstOf(Object.entries(after.setups), ([id, setup]) => {
      const old = own(before.setups, id);
      if (old === setup) return null;
      const at = ['setups', id];
      return (
        schemaProblem(setupSchema, { ...withoutSameLists(setup, old), pieces: {} }, after, at) ??
        changed(pieceSchema, old?.pieces, setup.pieces, [...at, 'pieces'])
      );
    }) ??
    planProblem(after, before)
  );
}
