/** All checks of one setup, from its layout. Worst first; the same plan gives the same findings in the same order. */
import type { Layout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { clearance, type PairReading, pairReadings } from './clearance.ts';
import type { Finding, State } from './finding.ts';
import { pieceProblems } from './pieceProblems.ts';
import { isKit, type Readings, readingsOf } from './readings.ts';
import { riserFit } from './riserFit.ts';

export interface Checked {
  readonly findings: readonly Finding[];
  readonly readings: Readings;
  readonly pairs: readonly PairReading[];
}

export const STATE_ORDER: readonly State[] = ['blocked', 'tight', 'unmeasured', 'clear'];

/** Inputs: the layout of a setup that the plan holds. */
export function runChecks(plan: Plan, setupId: string, layout: Layout): Checked {
  const setup = plan.setups[setupId];
  const pairs = pairReadings(plan, setup, layout.bodies);
  const contacts = layout.bodies.filter((body) => isKit(body) && body.touchesFloor);
  const findings: Finding[] = [
    ...pieceProblems(plan, setup, layout),
    ...clearance(plan, pairs),
    ...riserFit(layout.deck, contacts),
  ];
  findings.sort((a, b) => STATE_ORDER.indexOf(a.state) - STATE_ORDER.indexOf(b.state));
  return { findings, readings: readingsOf(layout), pairs };
}
