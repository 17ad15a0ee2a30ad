/** Commands on a rack as a whole: straight or curved, and which way it stands. No tube is ever stretched. */
import { CATALOGUE, gearOf } from '../../gear/catalogue.ts';
import type { GearOf } from '../../gear/schema.ts';
import { toDegrees } from '../../units.ts';
import { barOf, barsOf } from '../carriers.ts';
import { tidyDeg, tidyMm } from '../numbers.ts';
import { own } from '../places.ts';
import { rackFrame } from '../rackFrame.ts';
import type { Bend, Plan, Rack } from '../schema.ts';
import { turnFeet } from './rackParts.ts';
import { draftRack, type OnRack, onFreeRack, type Rule, type RulesOf } from './rule.ts';

/**
 * Bend every bar of a rack alike, or (null) make every bar straight. Cut lengths, overhangs and clamps along the tubes
 * stay; the first leg and the heading stay; the other legs come nearer, or go back to where they were.
 * `tubes`: bars whose tube is another article when it is bent, by bar id; bendCommand() fills it in.
 */
export interface BendRack extends OnRack<'bendRack'> {
  readonly bend: Bend | null;
  readonly tubes?: Readonly<Record<string, string>>;
}

/**
 * A leg was dragged towards a point of the plan; distances between legs stay, so only the direction counts.
 * - two legs: the rack turns about its other leg;
 * - a longer chain, an end leg: the end span turns about its inner leg, and the other legs and their feet stay;
 * - a longer chain, an inner leg: the whole rack turns about its first leg.
 * The foot of a leg that moves turns with it.
 */
export interface TurnRackLeg extends OnRack<'turnRackLeg'> {
  readonly leg: string;
  readonly xMm: number;
  readonly yMm: number;
}

export type RackShapeCommand = BendRack | TurnRackLeg;

/** How far a tube goes round when nobody said: a sixth of a turn. Common practice, no source. */
const USUAL_BEND_RAD = Math.PI / 3;
const USUAL_BEND_STEP_MM = 10;

/**
 * The tube of the same section and cut length that comes bent (or straight): itself if it does already, else the plan's
 * own or the catalogue's first, else itself, since any tube can be taken to a bender.
 */
export function counterpartTube(plan: Plan, id: string, curved: boolean): string {
  const tube = gearOf(plan.gear, id);
  const isCurved = (each: GearOf<'tube'>) => each.bendRadiusMm !== undefined;
  if (tube?.kind !== 'tube' || isCurved(tube) === curved) return id;
  const alike = [...Object.values(plan.gear), ...CATALOGUE].find(
    (each) =>
      each.kind === 'tube' &&
      isCurved(each) === curved &&
      each.use === tube.use &&
      each.material === tube.material &&
      each.outsideMm === tube.outsideMm &&
      each.wallMm === tube.wallMm &&
      each.cutLengthMm === tube.cutLengthMm,
  );
  return alike?.id ?? id;
}

export interface OfferedBend {
  readonly bend: Bend;
  readonly from: 'bar' | 'tube' | 'usual';
}

/**
 * The bend to offer for a rack, and where it is from: a bar of the rack that is curved already; the gear entry of a bar's
 * tube, or of its curved counterpart; or 'usual': the radius that takes the longest bar a sixth of a turn, to 10 mm.
 */
export function bendToOffer(plan: Plan, rack: Rack, side: Bend['side']): OfferedBend {
  const bars = rack.spans.flatMap((span) => span.bars);
  for (const { bend } of bars)
    if (bend) return { bend: { radiusMm: bend.radiusMm, straightEndsMm: bend.straightEndsMm, side }, from: 'bar' };
  for (const bar of bars) {
    const tube = gearOf(plan.gear, counterpartTube(plan, bar.tube, true));
    if (tube?.kind === 'tube' && tube.bendRadiusMm !== undefined)
      return { bend: { radiusMm: tube.bendRadiusMm, straightEndsMm: tube.straightEndsMm ?? 0, side }, from: 'tube' };
  }
  const longest = Math.max(...bars.map((bar) => bar.cutLengthMm));
  const steps = Math.max(2, Math.round(longest / USUAL_BEND_RAD / USUAL_BEND_STEP_MM));
  return { bend: { radiusMm: steps * USUAL_BEND_STEP_MM, straightEndsMm: 0, side }, from: 'usual' };
}

/** The command that bends a rack as offered (or as given), or makes it straight, with the tubes that go with it. */
export function bendCommand(plan: Plan, setup: string, rack: Rack, to: Bend['side'] | Bend | null): BendRack {
  const bend = typeof to === 'string' ? bendToOffer(plan, rack, to).bend : to;
  const tubes: Record<string, string> = {};
  for (const { bar } of barsOf(rack)) {
    const tube = counterpartTube(plan, bar.tube, bend !== null);
    if (tube !== bar.tube) tubes[bar.id] = tube;
  }
  return { type: 'bendRack', setup, rack: rack.id, bend, ...(Object.keys(tubes).length > 0 ? { tubes } : {}) };
}

const bendRack: Rule<BendRack> = {
  refuse: onFreeRack((rack, { tubes = {} }) => {
    const id = Object.keys(tubes).find((each) => !barOf(rack, each));
    return id === undefined ? null : { code: 'unknown', what: 'bar', id, where: rack.name };
  }),
  apply(draft, { setup, rack, bend, tubes = {} }) {
    for (const span of draftRack(draft, setup, rack).spans)
      for (const bar of span.bars) {
        bar.bend = bend === null ? null : { ...bend };
        bar.tube = own(tubes, bar.id) ?? bar.tube;
      }
  },
};

/** A drag onto the leg that the rack turns about says no direction. mm. */
const LEAST_PULL_MM = 1;

/** Which leg the rack, or its end span, turns about. */
function pivotOf(legCount: number, index: number): number {
  if (legCount === 2) return 1 - index;
  if (index === 0) return 1;
  return index === legCount - 1 ? index - 1 : 0;
}

function pull(rack: Rack, { leg, xMm, yMm }: TurnRackLeg) {
  const index = rack.legs.findIndex((each) => each.id === leg);
  const frame = rackFrame(rack);
  const pivot = pivotOf(rack.legs.length, index);
  return { index, frame, pivot, dx: xMm - frame.legs[pivot].x, dy: yMm - frame.legs[pivot].y };
}

const turnRackLeg: Rule<TurnRackLeg> = {
  refuse: onFreeRack((rack, command) => {
    if (!rack.legs.some((leg) => leg.id === command.leg))
      return { code: 'unknown', what: 'leg', id: command.leg, where: rack.name };
    const { dx, dy } = pull(rack, command);
    return Math.hypot(dx, dy) >= LEAST_PULL_MM ? null : { code: 'no_direction', rack: rack.name };
  }),
  apply(draft, command, plan) {
    const rack = plan.setups[command.setup].pieces[command.rack] as Rack;
    const target = draftRack(draft, command.setup, command.rack);
    const { index, frame, pivot, dx, dy } = pull(rack, command);
    const towards = Math.atan2(dy, dx);
    const last = rack.legs.length - 1;

    // Does the last span turn alone about its inner leg? Then only its joint angle changes, and its own foot.
    if (last > 1 && index === last) {
      const span = target.spans[index - 1];
      const turnDeg = tidyDeg(toDegrees(towards - frame.headings[index - 2]));
      turnFeet(target.legs, index, turnDeg - span.turnDeg);
      span.turnDeg = turnDeg;
      return;
    }
    // Does the leg stand behind its pivot along the chain? Then the first span points away from the pull.
    if (index < pivot) {
      const heading = tidyDeg(toDegrees(towards) + 180);
      const inner = frame.legs[pivot];
      const radians = (heading * Math.PI) / 180;
      target.place.xMm = tidyMm(inner.x - frame.chords[0] * Math.cos(radians));
      target.place.yMm = tidyMm(inner.y - frame.chords[0] * Math.sin(radians));
      if (last > 1) {
        // The rest of the chain stays: its joint and its feet give back what the heading took.
        const turned = heading - rack.place.headingDeg;
        target.spans[1].turnDeg = tidyDeg(rack.spans[1].turnDeg - turned);
        turnFeet(target.legs, 1, -turned);
      }
      target.place.headingDeg = heading;
      return;
    }
    // Else the whole rack turns about its first leg until this one lies in the pull's direction.
    const now = Math.atan2(frame.legs[index].y - frame.legs[0].y, frame.legs[index].x - frame.legs[0].x);
    target.place.headingDeg = tidyDeg(rack.place.headingDeg + toDegrees(towards - now));
  },
};

export const rackShapeRules = { bendRack, turnRackLeg } satisfies RulesOf<RackShapeCommand>;
