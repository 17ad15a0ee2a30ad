/** One setup as the strip and the comparison see it: laid out, checked and drawn small, kept while nothing of it changes. */

import { rackRoom } from '../../../checks/barRoom.ts';
import type { Finding } from '../../../checks/finding.ts';
import { partsOf } from '../../../checks/parts.ts';
import { isKit, standingArea } from '../../../checks/readings.ts';
import { type Checked, runChecks } from '../../../checks/run.ts';
import { wayIn } from '../../../checks/wayIn.ts';
import type { SetupReadings } from '../../../drawing/readingRows.ts';
import { type Layout, layoutSetup } from '../../../layout/layout.ts';
import type { Plan, Setup } from '../../../plan/schema.ts';
import { type Picture, pictureOf } from './picture.ts';

export interface SetupSummary {
  readonly id: string;
  readonly name: string;
  readonly picture: Picture;
  /** The deck's modules, each x0, y0, x1, y1 ... in mm. */
  readonly deck: readonly (readonly number[])[];
  readonly readings: SetupReadings;
  readonly findings: readonly Finding[];
}

interface Kept extends Pick<Plan, 'gear' | 'risers' | 'limits'> {
  readonly summary: SetupSummary;
}

/** By setup: immer keeps a setup that a command does not touch. */
const kept = new WeakMap<Setup, Kept>();

/** What a comparison shows beyond the cards: too slow to be worked out for every frame of a drag. */
export function fullReadings(plan: Plan, { id, readings }: SetupSummary, layout: Layout): SetupReadings {
  const { knownMass, unmeasured } = partsOf(plan, id);
  const way = wayIn(layout.bodies);
  const { bars } = rackRoom(plan, plan.setups[id], layout);
  return {
    ...readings,
    standingArea: standingArea(layout),
    wayIn: way?.width ?? null,
    isOpen: way === null && layout.bodies.some(({ kind }) => kind === 'throne'),
    freeBarMm: bars.length === 0 ? null : bars.reduce((sum, { free }) => sum + free, 0),
    massKg: knownMass,
    massUnknown: unmeasured,
  };
}

interface Worked {
  readonly layout: Layout;
  readonly checked: Checked;
}

function workOut(plan: Plan, setupId: string): Worked {
  const layout = layoutSetup(plan, setupId);
  return { layout, checked: runChecks(plan, setupId, layout) };
}

/** `evaluate`: layout and checks of a setup; the page passes its own, which remembers them. */
export function summaryOf(plan: Plan, setupId: string, evaluate: typeof workOut = workOut): SetupSummary {
  const setup = plan.setups[setupId];
  const before = kept.get(setup);
  if (before && before.gear === plan.gear && before.risers === plan.risers && before.limits === plan.limits)
    return before.summary;
  const { layout, checked } = evaluate(plan, setupId);
  const summary: SetupSummary = {
    id: setupId,
    name: setup.name,
    picture: pictureOf(layout.bodies.filter(isKit), layout.deck?.modules),
    deck: layout.deck?.modules ?? [],
    readings: { ...checked.readings, pieceCount: setup.order.length },
    findings: checked.findings,
  };
  kept.set(setup, { gear: plan.gear, risers: plan.risers, limits: plan.limits, summary });
  return summary;
}
