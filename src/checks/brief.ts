/** The readings of a setup that its card shows: all that is quick to work out. */
import type { Plan } from '../plan/schema.ts';
import { partsOf } from './parts.ts';
import type { Readings } from './readings.ts';
import type { Checked } from './run.ts';

/** What tells one base from another at a glance; null: nothing to measure, or nobody measured it. */
export interface BriefReadings extends Readings {
  /** The riser that margins and overhang are of. */
  readonly riser: string | null;
  /** mm: free stretches of all bars together; null without bars. */
  readonly freeBarMm: number | null;
  /** kg of all parts that are known, mounts included, and how many are not. */
  readonly massKg: number;
  readonly massUnknown: number;
  readonly pieceCount: number;
}

export function briefReadings(plan: Plan, id: string, { readings, rig }: Checked): BriefReadings {
  const { bars } = rig.room;
  const parts = partsOf(plan, id);
  return {
    ...readings,
    riser: plan.setups[id].riser,
    freeBarMm: bars.length === 0 ? null : bars.reduce((sum, { free }) => sum + free, 0),
    massKg: parts.knownMass,
    massUnknown: parts.unmeasured,
    pieceCount: plan.setups[id].order.length,
  };
}
