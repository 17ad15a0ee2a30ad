/** Setups of one plan side by side: every reading that says which base takes less floor, less tube, less lifting. */
import { type Layout, layoutSetup } from '../layout/layout.ts';
import { kitTurns } from '../plan/facing.ts';
import type { Plan } from '../plan/schema.ts';
import { type BriefReadings, briefReadings } from './brief.ts';
import { countByState, type State } from './finding.ts';
import { standingArea } from './readings.ts';
import { type RiserPoses, riserPoses } from './riserPoses.ts';
import { type Checked, runChecks } from './run.ts';
import { wayInReading } from './wayIn.ts';

/** What a comparison shows of one setup: more than can be worked out again for every frame of a drag. */
export interface ComparedReadings extends BriefReadings, RiserPoses {
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

/** One setup for a comparison. Inputs: a setup that the plan holds; its layout and checks, where the caller has them already. */
export function comparedSetup(
  plan: Plan,
  id: string,
  layout: Layout = layoutSetup(plan, id),
  checked: Checked = runChecks(plan, id, layout),
): ComparedSetup {
  return {
    id,
    name: plan.setups[id].name,
    readings: {
      ...briefReadings(plan, id, checked),
      ...riserPoses(layout, kitTurns(plan, plan.setups[id])),
      wayIn: wayInReading(layout),
      standingArea: standingArea(layout),
    },
    states: countByState(checked.findings),
    layout,
    checked,
  };
}
