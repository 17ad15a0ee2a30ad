/** Setups of one plan side by side: every reading that says which base takes less floor, less tube, less lifting. */
import { type Layout, layoutSetup } from '../layout/layout.ts';
import { kitTurns } from '../plan/facing.ts';
import type { Plan } from '../plan/schema.ts';
import { type BriefReadings, briefReadings } from './brief.ts';
import { countByState, type State } from './finding.ts';
import { standingArea } from './readings.ts';
import { posesOf, type RiserPose } from './riserPoses.ts';
import { type Checked, runChecks } from './run.ts';
import { wayInReading } from './wayIn.ts';

/** What a comparison shows of one setup: more than can be worked out again for every frame of a drag. */
export interface ComparedReadings extends BriefReadings {
  /** And the best of those that only shift and do not turn. Where the kit does not fit, what sticks out least. */
  readonly bestRiserPose: RiserPose | null;
  readonly bestRiserShift: RiserPose | null;
  /** mm. */
  readonly wayIn: number | null;
  /** m2: what comes down to the deck covers of it. */
  readonly standingArea: number | null;
}

export interface ComparedSetup {
  readonly id: string;
  readonly name: string;
  readonly readings: ComparedReadings;
  /** How many findings are in each state. */
  readonly states: Readonly<Record<State, number>>;
  readonly layout: Layout;
  readonly checked: Checked;
}

/** What a comparison shows of one setup, but for the best poses, whose search may take seconds. */
export const compareReadings = (plan: Plan, id: string, layout: Layout, checked: Checked) => ({
  ...briefReadings(plan, id, checked),
  wayIn: wayInReading(layout),
  standingArea: standingArea(layout),
});

/** One setup for a comparison. Inputs: a setup that the plan holds; its layout and checks, where the caller has them already. */
export function comparedSetup(
  plan: Plan,
  id: string,
  layout: Layout = layoutSetup(plan, id),
  checked: Checked = runChecks(plan, id, layout),
): ComparedSetup {
  const { pose, shift } = posesOf(layout, kitTurns(plan, plan.setups[id]));
  return {
    id,
    name: plan.setups[id].name,
    readings: { ...compareReadings(plan, id, layout, checked), bestRiserPose: pose, bestRiserShift: shift },
    states: countByState(checked.findings),
    layout,
    checked,
  };
}
