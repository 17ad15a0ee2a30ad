/** The laws that hold for every command, checked on whatever a test does with one. */
import { expect } from 'vitest';
import type { Command } from '../../../src/plan/commands/index.ts';
import type { Refusal } from '../../../src/plan/commands/rule.ts';
import { emptyHistory, push, redo, undo } from '../../../src/plan/history.ts';
import { planProblem } from '../../../src/plan/rules.ts';
import { patched, runCommand } from '../../../src/plan/run.ts';
import { type Plan, planSchema } from '../../../src/plan/schema.ts';
import { refusalSentence } from '../../../src/plan/words.ts';

const asText = (value: unknown) => JSON.stringify(value);

/**
 * Carries the command out and holds it to: the plan given stays as it was; undo gives it back and redo the result;
 * the command survives JSON; its result is a plan that the schema and the rules accept. Returns the result.
 */
export function expectLaws(plan: Plan, command: Command): Plan {
  const before = asText(plan);
  const said = asText(command);
  const ran = runCommand(plan, command);
  if (!ran.ok) throw new Error(`refused: ${refusalSentence(ran.refusal)}`);
  expect(asText(plan)).toBe(before);
  expect(asText(command)).toBe(said);

  expect(patched(ran.plan, ran.inverse)).toEqual(plan);
  expect(patched(plan, ran.patches)).toEqual(ran.plan);
  // The patches are data too.
  expect(patched(plan, JSON.parse(asText(ran.patches)))).toEqual(ran.plan);

  const again = runCommand(plan, JSON.parse(said));
  expect(again.ok && again.plan).toEqual(ran.plan);

  const pushed = push(emptyHistory(plan), command);
  if (!pushed.ok) throw new Error('the history refused what the run did not');
  expect(undo(pushed.history).history.plan).toEqual(plan);
  expect(redo(undo(pushed.history).history).history.plan).toEqual(ran.plan);

  expect(planSchema.safeParse(ran.plan).error?.issues ?? []).toEqual([]);
  expect(planProblem(ran.plan)).toBeNull();
  // What JSON cannot say (-0, undefined, NaN) is not in the result.
  expect(JSON.parse(asText(ran.plan))).toEqual(ran.plan);
  return ran.plan;
}

/** The command is refused with that code, in one sentence, and leaves plan and history as they were. */
export function expectRefusal(plan: Plan, command: Command, code: Refusal['code'], sentence: RegExp): Refusal {
  const before = asText(plan);
  const history = emptyHistory(plan);
  const ran = runCommand(plan, command);
  const pushed = push(history, command);
  expect(asText(plan)).toBe(before);
  expect(history).toEqual(emptyHistory(plan));
  if (ran.ok || pushed.ok) throw new Error('was not refused');
  expect(ran.refusal.code).toBe(code);
  expect(pushed.refusal).toEqual(ran.refusal);
  expect(refusalSentence(ran.refusal)).toMatch(sentence);
  expect(refusalSentence(ran.refusal)).toMatch(/^[^\n]+\.$/);
  return ran.refusal;
}
