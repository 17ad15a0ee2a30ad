/** All checks of one setup, from its layout. Worst first; the same plan gives the same findings in the same order. */

import { isKit } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import { kitTurns } from '../plan/facing.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { barLoad, type LoadReadings, loadReadings } from './barLoad.ts';
import { barRoom, type RackRoom, rackRoom } from './barRoom.ts';
import { clearance, pairings } from './clearance.ts';
import { STATE_ORDER } from './codes.ts';
import { crowd } from './crowd.ts';
import { type DeckLoadReading, deckLoad, deckLoadReading } from './deckLoad.ts';
import { jointPairs } from './joints.ts';
import { legless } from './legless.ts';
import { type LiftReading, lift, liftReadings } from './lift.ts';
import { mountFit } from './mountFit.ts';
import { type MountReading, mountReach, mountReadings } from './mountReach.ts';
import type { PairReading } from './pair.ts';
import { pedals } from './pedals.ts';
import { pieceProblems } from './pieceProblems.ts';
import { type Readings, readingsOf } from './readings.ts';
import { riserFit } from './riserFit.ts';
import { seats } from './seats.ts';
import { type AssemblyReading, assembliesOf, assemblyReadings, othersOf, stability } from './stability.ts';
import { wayInFinding } from './wayIn.ts';
import { rackPairs } from './withinRack.ts';

/** What holds, weighs and loads what. */
export interface RigReadings {
  readonly assemblies: readonly AssemblyReading[];
  readonly mounts: readonly MountReading[];
  readonly loads: LoadReadings;
  readonly deckLoad: DeckLoadReading;
  readonly lifts: readonly LiftReading[];
  readonly room: RackRoom;
}

/** What all checks may look at. */
interface Subject {
  readonly plan: Plan;
  readonly setup: Setup;
  readonly layout: Layout;
  readonly pairs: readonly PairReading[];
  readonly unlooked: number;
  readonly rig: RigReadings;
}

/** Every check, a line each. Their findings' types together are Finding (finding.ts). */
const findingsOf = ({ plan, setup, layout, pairs, unlooked, rig }: Subject) => [
  ...pieceProblems(plan, setup, layout),
  ...pedals(setup, layout.bodies),
  ...clearance(plan, pairs),
  ...crowd(pairs, unlooked),
  ...riserFit(
    layout.deck,
    layout.bodies.filter((body) => isKit(body) && body.touchesFloor),
  ),
  ...mountReach(setup, layout, layout.mounts, rig.mounts),
  ...seats(plan, setup),
  ...mountFit(plan, setup, layout),
  ...stability(plan, rig.assemblies),
  ...deckLoad(plan, layout.deck, rig.deckLoad),
  ...barLoad(plan, layout, rig.loads),
  ...barRoom(layout, rig.room),
  ...lift(rig.lifts),
  ...legless(plan, setup, layout, rig.mounts),
  ...wayInFinding(layout),
];

export interface Checked {
  readonly findings: ReturnType<typeof findingsOf>;
  readonly readings: Readings;
  readonly pairs: readonly PairReading[];
  readonly rig: RigReadings;
}

/** A legless stand that no link reaches says so itself, with what is missing: one finding for one brace. */
function toldOnce(findings: Checked['findings']): Checked['findings'] {
  const loose = new Set(findings.flatMap(({ code, pieces }) => (code === 'legless_loose' ? pieces : [])));
  return loose.size === 0
    ? findings
    : findings.filter(({ code, pieces }) => code !== 'link_misses' || !loose.has(pieces[0]));
}

/** Inputs: the layout of a setup that the plan holds. */
export function runChecks(plan: Plan, setupId: string, layout: Layout): Checked {
  const setup = plan.setups[setupId];
  const { pairs, unlooked } = pairings(plan, setup, layout.bodies);
  for (const pair of jointPairs(layout)) pairs.push(pair);
  for (const pair of rackPairs(plan, layout)) pairs.push(pair);
  const assemblies = assembliesOf(layout.bodies);
  const rig: RigReadings = {
    assemblies: assemblyReadings(plan, layout.deck, assemblies),
    mounts: mountReadings(plan, layout.mounts),
    loads: loadReadings(plan, setup, layout),
    deckLoad: deckLoadReading(plan, layout.deck, assemblies, layout.deck ? othersOf(layout.bodies) : []),
    lifts: liftReadings(plan, setup, layout),
    room: rackRoom(plan, setup, layout),
  };
  const findings = toldOnce(findingsOf({ plan, setup, layout, pairs, unlooked, rig }));
  findings.sort((a, b) => STATE_ORDER.indexOf(a.state) - STATE_ORDER.indexOf(b.state));
  return { findings, readings: readingsOf(layout, () => kitTurns(plan, setup)), pairs, rig };
}
