/** All checks of one setup, from its layout. Worst first; the same plan gives the same findings in the same order. */

import { isKit } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import { kitTurns } from '../plan/facing.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { BAR_LOAD, barLoad, type LoadReadings, loadReadings } from './barLoad.ts';
import { BAR_ROOM, barRoom, type RackRoom, rackRoom } from './barRoom.ts';
import { CLEARANCE, clearance, pairReadings } from './clearance.ts';
import { type Check, type FoundBy, STATE_ORDER } from './codes.ts';
import { DECK_LOAD, type DeckLoadReading, deckLoad, deckLoadReading } from './deckLoad.ts';
import { jointPairs } from './joints.ts';
import { LEGLESS, legless } from './legless.ts';
import { LIFT, type LiftReading, lift, liftReadings } from './lift.ts';
import { MOUNT_FIT, mountFit } from './mountFit.ts';
import { MOUNT_REACH, type MountReading, mountReach, mountReadings } from './mountReach.ts';
import type { PairReading } from './pair.ts';
import { PEDALS, pedals } from './pedals.ts';
import { DRIVE_SHAFT, GEAR, pieceProblems, RACK } from './pieceProblems.ts';
import { type Readings, readingsOf } from './readings.ts';
import { RISER_FIT, riserFit } from './riserFit.ts';
import { SEATS, seats } from './seats.ts';
import { type AssemblyReading, assembliesOf, assemblyReadings, othersOf, STABILITY, stability } from './stability.ts';
import { WAY_IN, wayInFinding } from './wayIn.ts';
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
  readonly rig: RigReadings;
}

/** A line of the table: what says it, and how it is found. */
const line = <C extends Check>(says: readonly C[], find: (subject: Subject) => readonly FoundBy<C>[]) => ({
  says,
  find,
});

/** Every check, a line each, in the order in which findings of one state stand. Their findings' types together are Finding. */
export const CHECKS = [
  line([GEAR, RACK, DRIVE_SHAFT], ({ plan, setup, layout }) => pieceProblems(plan, setup, layout)),
  line([PEDALS], ({ setup, layout }) => pedals(setup, layout.bodies)),
  line([CLEARANCE], ({ plan, pairs }) => clearance(plan, pairs)),
  line([RISER_FIT], ({ layout }) =>
    riserFit(
      layout.deck,
      layout.bodies.filter((body) => isKit(body) && body.touchesFloor),
    ),
  ),
  line([MOUNT_REACH], ({ setup, layout, rig }) => mountReach(setup, layout, layout.mounts, rig.mounts)),
  line([SEATS], ({ plan, setup }) => seats(plan, setup)),
  line([MOUNT_FIT], ({ plan, setup, layout }) => mountFit(plan, setup, layout)),
  line([STABILITY], ({ plan, rig }) => stability(plan, rig.assemblies)),
  line([DECK_LOAD], ({ plan, layout, rig }) => deckLoad(plan, layout.deck, rig.deckLoad)),
  line([BAR_LOAD], ({ plan, layout, rig }) => barLoad(plan, layout, rig.loads)),
  line([BAR_ROOM], ({ layout, rig }) => barRoom(layout, rig.room)),
  line([LIFT], ({ rig }) => lift(rig.lifts)),
  line([LEGLESS], ({ plan, setup, layout, rig }) => legless(plan, setup, layout, rig.mounts)),
  line([WAY_IN], ({ layout }) => wayInFinding(layout)),
];

type Found = ReturnType<(typeof CHECKS)[number]['find']>[number];

export interface Checked {
  readonly findings: Found[];
  readonly readings: Readings;
  readonly pairs: readonly PairReading[];
  readonly rig: RigReadings;
}

/** A legless stand that no link reaches says so itself, with what is missing: one finding for one brace. */
function toldOnce(findings: Found[]): Found[] {
  const loose = new Set(findings.flatMap(({ code, pieces }) => (code === 'legless_loose' ? pieces : [])));
  return loose.size === 0
    ? findings
    : findings.filter(({ code, pieces }) => code !== 'link_misses' || !loose.has(pieces[0]));
}

/** Inputs: the layout of a setup that the plan holds. */
export function runChecks(plan: Plan, setupId: string, layout: Layout): Checked {
  const setup = plan.setups[setupId];
  const pairs = [...pairReadings(plan, setup, layout.bodies), ...jointPairs(layout), ...rackPairs(plan, layout)];
  const assemblies = assembliesOf(layout.bodies);
  const rig: RigReadings = {
    assemblies: assemblyReadings(plan, layout.deck, assemblies),
    mounts: mountReadings(plan, layout.mounts),
    loads: loadReadings(plan, setup, layout),
    deckLoad: deckLoadReading(plan, layout.deck, assemblies, layout.deck ? othersOf(layout.bodies) : []),
    lifts: liftReadings(plan, setup, layout),
    room: rackRoom(plan, setup, layout),
  };
  const subject: Subject = { plan, setup, layout, pairs, rig };
  const findings = toldOnce(CHECKS.flatMap(({ find }): readonly Found[] => find(subject)));
  findings.sort((a, b) => STATE_ORDER.indexOf(a.state) - STATE_ORDER.indexOf(b.state));
  return { findings, readings: readingsOf(layout, () => kitTurns(plan, setup)), pairs, rig };
}
