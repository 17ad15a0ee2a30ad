/** A setup's layout and checks, worked out once for each state of the plan. */
import { type Checked, runChecks } from '../checks/run.ts';
import { type Layout, layoutSetup } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';

export interface Evaluated {
  readonly layout: Layout;
  readonly checked: Checked;
}

/** By plan, then by setup: plans are never changed, so an answer stays right as long as its plan lives. */
const known = new WeakMap<Plan, Map<string, Evaluated>>();

export function evaluate(plan: Plan, setupId: string): Evaluated {
  let setups = known.get(plan);
  if (!setups) {
    setups = new Map();
    known.set(plan, setups);
  }
  let answer = setups.get(setupId);
  if (!answer) {
    const layout = layoutSetup(plan, setupId);
    answer = { layout, checked: runChecks(plan, setupId, layout) };
    setups.set(setupId, answer);
  }
  return answer;
}
