/** Setups of one plan side by side: every reading that says which base takes less floor, less tube, less lifting. */
import { type Layout, layoutSetup } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { countByState, type State } from './finding.ts';
import { partsOf } from './parts.ts';
import { type FrameReadings, frameReadings, type Readings, standingArea } from './readings.ts';
import { type Checked, runChecks } from './run.ts';
import { wayInReading } from './wayIn.ts';

/** What tells one base from another at a glance; null: nothing to measure, or nobody measured it. */
interface BriefReadings extends FrameReadings {
  /** The riser that margins and overhang are of. */
  readonly riser: string | null;
  /** mm: free stretches of all bars together; null without bars. */
  readonly freeBarMm: number | null;
  /** kg of all parts that are known, mounts included, and how many are not. */
  readonly massKg: number;
  readonly massUnknown: number;
  readonly pieceCount: number;
}

/** What a comparison shows of one setup: more than can be worked out again for every frame of a drag. */
export interface ComparedReadings extends BriefReadings, Pick<Readings, 'bestRiserPose' | 'bestRiserShift'> {
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

export function briefReadings(plan: Plan, id: string, { readings, rig }: Checked): BriefReadings {
  const { bars } = rig.room;
  const parts = partsOf(plan, id);
  return {
    ...frameReadings(readings),
    riser: plan.setups[id].riser,
    freeBarMm: bars.length === 0 ? null : bars.reduce((sum, { free }) => sum + free, 0),
    massKg: parts.knownMass,
    massUnknown: parts.unmeasured,
    pieceCount: plan.setups[id].order.length,
  };
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
  const { bestRiserPose, bestRiserShift } = checked.readings;
  return {
    id,
    name: plan.setups[id].name,
    readings: { ...compareReadings(plan, id, layout, checked), bestRiserPose, bestRiserShift },
    states: countByState(checked.findings),
    layout,
    checked,
  };
}
