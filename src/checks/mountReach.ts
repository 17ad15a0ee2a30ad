/**
 * Can each arm and link hold its piece where the plan has it? In three dimensions, from the arm's own ranges.
 *
 * Reached: clear, with what is left. Missed by no more than a drummer's own slack (SLACK_MM): tight. Else blocked, with the
 * least change of place that would do, and the catalogue's or the plan's own arm that reaches with the least waste.
 */
import { CATALOGUE } from '../gear/catalogue.ts';
import type { Gear } from '../gear/schema.ts';
import type { Layout } from '../layout/layout.ts';
import { type ArmOffer, armsThatReach } from '../layout/reach.ts';
import type { MountPose } from '../layout/reachMounts.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import type { Finding, State } from './finding.ts';

/** A piece this far beyond its arm is held a little off its place rather than not at all. Our own default. */
export const SLACK_MM = 5;

export interface MountReading {
  readonly piece: string;
  readonly holds: 'mount' | 'tie';
  readonly arm: string;
  readonly reached: boolean;
  /** mm: the least room left; below 0, the distance missing. */
  readonly left: number;
  /** Degrees that the ball joint cannot make. */
  readonly tiltShort: number;
  /** mm, mm, degrees. */
  readonly settings: { readonly post: number; readonly arm: number; readonly tilt: number };
  /** Gear that would reach, when this arm does not; null: none known. */
  readonly wouldDo: string | null;
}

/**
 * Arms that would reach where this one does not: of its own kind. A platform's sockets are bare, and a plan names one arm a
 * mount, so what bridges the way from the socket to the piece is an L-arm that the plan does not hold.
 */
function offersFor(plan: Plan, pose: MountPose): ArmOffer[] {
  const { arm, horizontalMm, riseMm, tiltDeg, reach } = pose;
  if (reach.reached) return [];
  if (arm.kind !== 'platform') return armsThatReach(arms(plan), [arm.kind], horizontalMm, riseMm, tiltDeg);
  const { armMm, postMm } = reach.settings;
  const left = Math.max(0, horizontalMm - armMm);
  // Any height of the platform's own post will do; with the one nearest to the piece the L-arm's post is shortest.
  return armsThatReach(arms(plan), ['lArm'], left, Math.max(0, riseMm - postMm), tiltDeg);
}

/** The catalogue's arms and the plan's own; an entry of the plan's own takes the place of the catalogue's. */
function arms(plan: Plan): Gear[] {
  return [...CATALOGUE.filter((gear) => !Object.hasOwn(plan.gear, gear.id)), ...Object.values(plan.gear)];
}

export function mountReadings(plan: Plan, poses: readonly MountPose[]): MountReading[] {
  return poses.map((pose): MountReading => {
    const { reach, arm } = pose;
    const { postMm, armMm, tiltDeg } = reach.settings;
    const offers = offersFor(plan, pose);
    return {
      piece: pose.piece,
      holds: pose.holds,
      arm: arm.id,
      reached: reach.reached,
      left: reach.shortMm > 0 ? -reach.shortMm : reach.leftMm,
      tiltShort: reach.tiltShortDeg,
      settings: { post: postMm, arm: armMm, tilt: tiltDeg },
      wouldDo: offers[0]?.arm.id ?? null,
    };
  });
}

function stateOf({ reached, left, tiltShort }: MountReading): State {
  if (reached) return 'clear';
  return tiltShort === 0 && left >= -SLACK_MM ? 'tight' : 'blocked';
}

/** Cymbals and drums that nothing holds and that have no legs of their own. */
function unheld(setup: Setup, layout: Layout): Finding[] {
  const standing = new Set(layout.bodies.filter((body) => body.touchesFloor).map((body) => body.piece));
  const floating = new Map<string, Layout['bodies'][number]>();
  for (const body of layout.bodies) {
    const item = setup.pieces[body.piece];
    if (item?.kind !== 'item' || item.mount !== null || item.ties?.length || standing.has(body.piece)) continue;
    if (!floating.has(body.piece)) floating.set(body.piece, body);
  }
  return [...floating.values()].map((body) => {
    const { place } = setup.pieces[body.piece];
    return {
      check: 'mountReach',
      code: 'nothing_holds_it',
      state: 'unmeasured',
      pieces: [body.piece],
      bodies: [body.id],
      value: null,
      limit: null,
      unit: 'mm',
      source: 'the plan',
      at: [place.xMm, place.yMm],
    };
  });
}

/** One finding for each mount that does not reach; when all do, one for the mount with the least left. */
export function mountReach(
  setup: Setup,
  layout: Layout,
  poses: readonly MountPose[],
  readings: readonly MountReading[],
): Finding[] {
  const findings = unheld(setup, layout);
  let least: number | null = null;
  readings.forEach((reading, k) => {
    if (!reading.reached) findings.push(findingOf(poses[k], reading));
    else if (least === null || reading.left < readings[least].left) least = k;
  });
  if (findings.length === 0 && least !== null) findings.push(findingOf(poses[least], readings[least]));
  return findings;
}

function findingOf(pose: MountPose, reading: MountReading): Finding {
  const base = {
    check: 'mountReach',
    state: stateOf(reading),
    pieces: [reading.piece],
    bodies: [],
    source: "the arm's own range",
    at: [pose.post[0], pose.post[1]] as const,
    line: [pose.post[0], pose.post[1], pose.target[0], pose.target[1]] as const,
    gear: [reading.arm, ...(reading.wouldDo === null ? [] : [reading.wouldDo])],
  };
  if (!reading.reached && pose.arm.kind === 'platform' && reading.wouldDo !== null)
    return { ...base, code: 'platform_needs_arm', state: 'unmeasured', value: -reading.left, limit: 0, unit: 'mm' };
  if (!reading.reached && reading.tiltShort > 0 && reading.left >= 0)
    return { ...base, code: 'ball_too_flat', value: reading.tiltShort, limit: 0, unit: 'deg' };
  return {
    ...base,
    code: reading.reached ? 'arm_reaches' : pose.holds === 'tie' ? 'link_misses' : 'arm_misses',
    value: reading.left,
    limit: 0,
    unit: 'mm',
  };
}
