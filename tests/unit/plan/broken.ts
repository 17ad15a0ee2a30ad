/** Broken plans as text, and what reading them must say. */
import { expect } from 'vitest';
import { readPlan } from '../../../src/plan/read.ts';
import { samplePlan } from '../../fixtures/plans.ts';

// biome-ignore lint/suspicious/noExplicitAny: broken plans are the point
export type Broken = any;

/** The sample as text after something was done to it. */
export function broken(change: (plan: Broken) => void): string {
  const plan = samplePlan();
  change(plan);
  return JSON.stringify(plan);
}

/** The text is refused: code, place, and the whole sentence. */
export function expectProblem(text: string, code: string, place: string, reason: string | RegExp): void {
  const read = readPlan(text);
  if (read.ok) throw new Error('was read');
  const { problem } = read;
  expect([problem.code, problem.place]).toEqual([code, place]);
  if (typeof reason === 'string') expect(problem.sentence).toBe(reason);
  else expect(problem.sentence).toMatch(reason);
  // One sentence, one line, short enough to be read.
  expect(problem.sentence).toMatch(/^[^\n]{1,400}\.$/);
}

export const straight = (plan: Broken) => plan.setups.straight;
export const left = (plan: Broken) => straight(plan).pieces.left;
export const front = (plan: Broken) => straight(plan).pieces.front;
export const SETUP = 'Setup "Straight racks"';
