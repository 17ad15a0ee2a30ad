/**
 * Can each arm and link hold its piece where the plan has it? In three dimensions, from the arm's own ranges.
 *
 * Reached: clear, with what is left. Missed by no more than a drummer's own slack (SLACK_MM): tight. Else blocked, with the
 * least change of place that would do, and the catalogue's or the plan's own arm that reaches with the least waste.
 */

import { knownGear } from '../gear/catalogue.ts';
import { isSocketArm, KINDS } from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { armOfStand, hasArmFor } from '../gear/standHolds.ts';
import { keeper } from '../keep.ts';
import { bodiesOf } from '../layout/bodiesOf.ts';
import { type Body, isKit } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import { onPlatform } from '../layout/platformHead.ts';
import { type ArmOffer, armsThatReach, reachOf } from '../layout/reach.ts';
import type { MountPose } from '../layout/reachMounts.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import {
  checkOf,
  code,
  type Drawn,
  type Measured,
  type OnePiece,
  type Say,
  type State,
  saysOf,
  type TwoPieces,
  type Unmeasured,
} from './codes.ts';

/** `arm`: the gear that holds or fails to; `wouldDo`: gear that would do where it fails, null: none known. */
interface Arm extends OnePiece, Drawn {
  readonly arm: string;
  readonly wouldDo: string | null;
}

/** `tooLong`: set as short as it goes it still ends beyond the piece. */
interface Missed {
  readonly tooLong: boolean;
}

/** What to do about an arm or link that misses: one that ends before the piece, and one that is too long for it. */
const misses: Say<Arm & Missed> = ({ names: [first], missing, gear }, { arm, wouldDo, tooLong }) =>
  `${gear(arm)} of ${first} is ${missing} ${tooLong ? 'too long for' : 'short of'} its place: ${wouldDo === null ? '' : `take ${gear(wouldDo)}, or `}move it or its clamp.`;

export const MOUNT_REACH = checkOf('mountReach', {
  word: 'Mounts',
  caution: null,
  codes: {
    arm_reaches: code<Measured & Arm>(
      'mm',
      'atLeast',
      ({ names: [first], value, gear }, { arm }) =>
        `Every arm reaches its piece: ${gear(arm)} of ${first} has the least room left, ${value}.`,
    ),
    arm_misses: code<Measured & Arm & Missed>('mm', 'atLeast', misses),
    link_misses: code<Measured & Arm & Missed>('mm', 'atLeast', misses),
    stand_misses: code<Measured & Arm>(
      'mm',
      'atLeast',
      ({ names: [first], missing, gear }, { arm, wouldDo }) =>
        `${first} is ${missing} beyond the reach of ${gear(arm)}: ${wouldDo === null ? 'move one of them' : `move one of them, or take ${gear(wouldDo)}`}.`,
    ),
    platform_needs_arm: code<Measured & Arm & { readonly wouldDo: string }>(
      'mm',
      'atMost',
      ({ names: [first], value, gear }, { arm, wouldDo }) =>
        `${first} is ${value} from a bare socket of ${gear(arm)}: take ${gear(wouldDo)} as the tom holder's arm.`,
    ),
    ball_too_flat: code<Measured & Arm>(
      'deg',
      'atMost',
      ({ names: [first], value, gear }, { arm }) =>
        `${first} is tilted ${value} more than the ball joint of ${gear(arm)} allows: tilt it less, or take another arm.`,
    ),
    socket_taken: code<Unmeasured & TwoPieces & { readonly holder: string | null }>(
      'mm',
      null,
      ({ names: [first, second], gear }, { holder }) =>
        `${first} and ${second} stand in one socket of ${gear(holder ?? '')}: take another socket for one of them.`,
    ),
    nothing_holds_it: code<Unmeasured & OnePiece>(
      'mm',
      null,
      ({ names: [first] }) => `Nothing holds ${first}: mount it on a rack, a stand or another arm.`,
    ),
  },
});
const says = saysOf(MOUNT_REACH);

type Found = ReturnType<typeof says>;

/** A piece this far beyond its arm is held a little off its place rather than not at all. Our own default. */
export const SLACK_MM = 5;

export interface MountReading {
  readonly piece: string;
  readonly holds: 'mount' | 'tie';
  readonly arm: string;
  readonly reached: boolean;
  /** mm: the least room left; below 0, the distance missing. */
  readonly left: number;
  /** Where it is missed: the arm ends beyond the piece, and not before it. */
  readonly tooLong: boolean;
  /** Degrees that the ball joint cannot make. */
  readonly tiltShort: number;
  /** mm, mm, degrees. */
  readonly settings: { readonly post: number; readonly arm: number; readonly tilt: number };
  /** Gear that would reach, when this arm does not; null: none known. */
  readonly wouldDo: string | null;
  /** The platform that the arm stands on: its gear, the length of its post, and the socket, counted from 0. */
  readonly platform?: { readonly gear: string; readonly post: number; readonly socket: number };
}

/** What holds a piece in a platform's socket: a drum an L-arm, all else a boom. */
const kindFor = ({ held }: MountPose): 'lArm' | 'boom' => KINDS[held].placed?.heldBy ?? 'boom';

/**
 * The arm that would reach where this one does not, with the least waste: of its own kind; on a platform, its head at any height; for
 * a platform without an arm, one from its free socket that is nearest.
 */
function wouldDo(plan: Plan, pose: MountPose): string | null {
  const { arm, horizontalMm, riseMm, tiltDeg, reach, head } = pose;
  if (reach.reached) return null;
  if (pose.isOfStand) return standThatReaches(plan, pose);
  if (arm.kind === 'platform') {
    const kind = kindFor(pose);
    const from = pose.bare.flatMap(({ at, target }) => {
      const away = Math.hypot(target[0] - at[0], target[1] - at[1]);
      return armsThatReach(onHead(plan, arm), [kind], away, target[2] - at[2], tiltDeg);
    });
    return least(from)?.arm.id ?? null;
  }
  if (!head)
    return least(armsThatReach(knownGear(plan.gear), [arm.kind], horizontalMm, riseMm, tiltDeg))?.arm.id ?? null;
  const rise = riseMm + head.top[2] - head.foot[2];
  return least(armsThatReach(onHead(plan, head.platform), [arm.kind], horizontalMm, rise, tiltDeg))?.arm.id ?? null;
}

/** The stand of least arm whose boom, or whose own tom arm, would reach. */
function standThatReaches(plan: Plan, { arm, held, horizontalMm, riseMm, tiltDeg }: MountPose): string | null {
  const hold = held === 'drum' ? 'tomArm' : 'boom';
  let best: { readonly id: string; readonly longest: number } | null = null;
  for (const stand of knownGear(plan.gear)) {
    if (stand.kind !== 'stand' || stand.id === arm.id || !hasArmFor(stand, hold)) continue;
    const own = armOfStand(stand, hold);
    const whole = onPlatform({ postMm: stand.heightMm }, own);
    if (!reachOf(whole, horizontalMm, riseMm, tiltDeg).reached) continue;
    if (best === null || own.armMm[1] < best.longest) best = { id: stand.id, longest: own.armMm[1] };
  }
  return best?.id ?? null;
}

const least = (offers: readonly ArmOffer[]): ArmOffer | undefined =>
  offers.reduce<ArmOffer | undefined>((best, each) => (best && best.wasteMm <= each.wasteMm ? best : each), undefined);

/** Arms as long as they are on a platform whose head may be set. */
const onHead = (plan: Plan, platform: GearOf<'platform'>): Gear[] =>
  knownGear(plan.gear).flatMap((arm) => (isSocketArm(arm) ? [onPlatform(platform, arm)] : []));

/** Whether the piece would have to go away from the arm's foot, out or up or down, to be where the arm ends. */
function endsBeyond({ horizontalMm, riseMm, reach: { shortMm, changeMm } }: MountPose): boolean {
  if (shortMm === 0) return false;
  // At the foot itself any change is away from it.
  const up = Math.abs(riseMm) < 1 ? Math.abs(changeMm.up) : changeMm.up * riseMm;
  const out = horizontalMm < 1 ? Math.abs(changeMm.out) : changeMm.out * horizontalMm;
  return out + up > 0;
}

function mountReading(plan: Plan, pose: MountPose): MountReading {
  const { reach, arm, head } = pose;
  const { postMm, armMm, tiltDeg } = reach.settings;
  return {
    piece: pose.piece,
    holds: pose.holds,
    arm: arm.id,
    reached: reach.reached,
    left: reach.shortMm > 0 ? -reach.shortMm : reach.leftMm,
    tooLong: endsBeyond(pose),
    tiltShort: reach.tiltShortDeg,
    settings: { post: postMm, arm: armMm, tilt: tiltDeg },
    wouldDo: wouldDo(plan, pose),
    ...(head && { platform: { gear: head.platform.id, post: head.top[2] - head.foot[2], socket: head.socket } }),
  };
}

/** By pose, which layout keeps while nothing of its mount moves. */
const keepReading = keeper<MountReading>();

export const mountReadings = (plan: Plan, poses: readonly MountPose[]): MountReading[] =>
  poses.map((pose) => keepReading(pose, [plan.gear], () => mountReading(plan, pose)));

function stateOf({ reached, left, tiltShort }: MountReading): State {
  if (reached) return 'clear';
  return tiltShort === 0 && left >= -SLACK_MM ? 'tight' : 'blocked';
}

/** Cymbals and drums that nothing holds and that have no legs of their own. */
function unheld(setup: Setup, layout: Layout): Found[] {
  const floating: Body[] = [];
  for (const id of setup.order) {
    const item = setup.pieces[id];
    if (item?.kind !== 'item' || item.mount !== null || item.ties?.length) continue;
    const own = bodiesOf(layout.bodies, id);
    // A clip microphone is no part of the kit: the piece that it takes holds it.
    const first = own.find(isKit);
    if (first && !own.some((body) => body.touchesFloor)) floating.push(first);
  }
  return floating.map(({ id, piece }) => {
    const { xMm, yMm } = setup.pieces[piece].place;
    const bare = { value: null, limit: null, source: 'the plan' };
    return says('nothing_holds_it', { ...bare, state: 'unmeasured', pieces: [piece], bodies: [id], at: [xMm, yMm] });
  });
}

/** Two arms in one socket, of a platform or of an arm. */
function doubleSockets(poses: readonly MountPose[]): Found[] {
  const first = new Map<string, MountPose>();
  const findings: Found[] = [];
  for (const pose of poses) {
    const { carrier, head } = pose;
    const keys = head ? [`${pose.piece} ${head.socket}`] : [];
    if (carrier.on === 'socket') keys.push(`${carrier.piece} ${carrier.socket}`);
    for (const key of keys) {
      const other = first.get(key);
      if (other === undefined) first.set(key, pose);
      else findings.push(doubled(other, pose, poses));
    }
  }
  return findings;
}

function doubled(a: MountPose, b: MountPose, poses: readonly MountPose[]): Found {
  const holder = [a, b].find(({ head }) => head)?.piece ?? (b.carrier.on === 'socket' ? b.carrier.piece : b.piece);
  const under = poses.find(({ piece, holds }) => piece === holder && holds === 'mount');
  return says('socket_taken', {
    state: 'blocked',
    pieces: [a.piece, b.piece],
    bodies: [],
    value: null,
    limit: null,
    source: 'the plan',
    at: [b.post[0], b.post[1]],
    holder: under ? (under.head?.platform.id ?? under.arm.id) : null,
  });
}

/** One finding for each mount that does not reach and each socket with two arms in it; when all do, one for the mount with the least left. */
export function mountReach(
  setup: Setup,
  layout: Layout,
  poses: readonly MountPose[],
  readings: readonly MountReading[],
): Found[] {
  const findings = [...unheld(setup, layout), ...doubleSockets(poses)];
  let least: number | null = null;
  readings.forEach((reading, k) => {
    if (!reading.reached) findings.push(findingOf(poses[k], reading));
    else if (least === null || reading.left < readings[least].left) least = k;
  });
  if (findings.length === 0 && least !== null) findings.push(findingOf(poses[least], readings[least]));
  return findings;
}

function findingOf(pose: MountPose, reading: MountReading): Found {
  const { wouldDo } = reading;
  const base = {
    state: stateOf(reading),
    pieces: [reading.piece],
    bodies: [],
    limit: 0,
    source: "the arm's own range",
    at: [pose.post[0], pose.post[1]],
    line: [pose.post[0], pose.post[1], pose.target[0], pose.target[1]],
    arm: reading.arm,
  } as const;
  if (!reading.reached && pose.arm.kind === 'platform' && wouldDo !== null)
    return says('platform_needs_arm', { ...base, state: 'unmeasured', value: -reading.left, wouldDo });
  if (!reading.reached && reading.tiltShort > 0 && reading.left >= 0)
    return says('ball_too_flat', { ...base, value: reading.tiltShort, wouldDo });
  if (reading.reached || pose.isOfStand)
    return says(reading.reached ? 'arm_reaches' : 'stand_misses', { value: reading.left, ...base, wouldDo });
  const code = pose.holds === 'tie' ? 'link_misses' : 'arm_misses';
  return says(code, { value: reading.left, ...base, wouldDo, tooLong: reading.tooLong });
}
