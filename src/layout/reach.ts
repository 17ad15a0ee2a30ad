/**
 * Does this arm hold that piece there? In three dimensions, in closed form, for every kind of arm in the catalogue.
 *
 * The target is seen from the socket in which the arm's post stands: how far away in plan, and how much higher. All arms
 * turn freely about that socket's upright line, so two numbers say all:
 *
 * - boom: post straight up, then an arm that tilts (reachRegion.ts). A straight post is a boom whose arm has no length.
 * - L-arm: post up, arm out level, then a ball joint that must make the piece's tilt.
 * - platform: post up; a piece hangs at one of its sockets, whose distance from the post is fixed. An arm in a socket of a
 *   platform starts at that socket (gear/kinds.ts); with an arm of its own in one, see reachMounts.ts.
 * - link: clamp to clamp with ends that swivel, so only the straight distance counts.
 *
 * Units:  mm; degrees as in the gear's own ranges.
 * Exact:  closed form; within 1e-9 mm.
 */
import { type ArmGear, isArm } from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { kept } from '../keep.ts';
import { toDegrees, toRadians } from '../units.ts';
import { type ArmRange, nearestReach, type Range, type Room, roomAround, usablePosts } from './reachRegion.ts';

/**
 * Targets missed by less count as reached: places and ranges come from decimal files through sines, which leaves errors of
 * about 1e-12 mm where an arm is at its very end. A millionth of a mm is far from both that and from any tape.
 */
const ROUNDING_MM = 1e-6;
const ROUNDING_DEG = 1e-9;

/** How the arm is set: post and arm in mm; the arm's tilt in degrees above level; the ball's tilt, if it has one. */
export interface ArmSettings {
  readonly postMm: number;
  readonly armMm: number;
  readonly tiltDeg: number;
  readonly ballTiltDeg: number | null;
  /** The platform's socket that the piece hangs at. */
  readonly socket: number | null;
}

export interface Reach {
  readonly reached: boolean;
  /** The least change of place that the piece needs; 0 if its place is within reach. */
  readonly shortMm: number;
  /** That change: how far the piece has to go away from the socket (negative: towards it) and up. */
  readonly changeMm: { readonly out: number; readonly up: number };
  /** The ball joint's range ends this much before the piece's tilt. */
  readonly tiltShortDeg: number;
  /** How far the piece may still go straight out, in, up and down. Null if it is not reached. */
  readonly room: Room | null;
  /** The least of the four; 0 if it is not reached. An arm that cannot be lengthened at all has 0 left. */
  readonly leftMm: number;
  /** For a reached piece: the tallest post that will do, so that the arm passes over what is below. Else: what comes nearest. */
  readonly settings: ArmSettings;
}

const LEVEL: Range = [0, 0];
const radians = ([low, high]: Range): Range => [toRadians(low), toRadians(high)];

/** The range of an arm whose end takes hold of the piece. */
export const rangeOf = (arm: GearOf<'boom' | 'lArm'>): ArmRange => ({
  post: arm.postMm,
  arm: arm.armMm,
  tilt: arm.kind === 'lArm' ? LEVEL : radians(arm.tiltDeg),
});

interface Way {
  readonly range: ArmRange;
  readonly ball: Range | null;
  readonly socket: number | null;
}

/** The ranges in which an arm can be set; a platform has one for each of its sockets that hold drums. */
const waysOf = kept((arm: ArmGear): readonly Way[] => {
  switch (arm.kind) {
    case 'boom':
      return [{ range: rangeOf(arm), ball: null, socket: null }];
    case 'lArm':
      return [{ range: rangeOf(arm), ball: arm.ballTiltDeg, socket: null }];
    case 'link':
      return [
        { range: { post: [0, 0], arm: arm.lengthMm, tilt: [-Math.PI / 2, Math.PI / 2] }, ball: null, socket: null },
      ];
    case 'platform': {
      const ways = arm.sockets.map((socket, index): Way & { use: string } => {
        const out = Math.hypot(socket.xMm, socket.yMm);
        return {
          range: { post: arm.postMm, arm: [out, out], tilt: LEVEL },
          ball: null,
          socket: index,
          use: socket.use,
        };
      });
      const forDrums = ways.filter((way) => way.use === 'tom');
      return forDrums.length > 0 ? forDrums : ways;
    }
  }
});

function reachOfWay(way: Way, horizontalMm: number, riseMm: number, tiltDeg: number): Reach {
  const { range, ball, socket } = way;
  const tilt = Math.abs(tiltDeg);
  const ballTilt = ball ? Math.min(Math.max(tilt, ball[0]), ball[1]) : null;
  const tiltShortDeg = ballTilt === null ? 0 : Math.abs(tilt - ballTilt);
  const tilts = tiltShortDeg <= ROUNDING_DEG;

  const posts = usablePosts(range, horizontalMm, riseMm);
  if (posts.length > 0) {
    let widest = posts[0];
    for (const each of posts) if (each[1] - each[0] > widest[1] - widest[0]) widest = each;
    const postMm = widest[1];
    const up = riseMm - postMm;
    const room = roomAround(range, horizontalMm, riseMm);
    return {
      reached: tilts,
      shortMm: 0,
      changeMm: { out: 0, up: 0 },
      tiltShortDeg: tilts ? 0 : tiltShortDeg,
      room: tilts ? room : null,
      leftMm: tilts ? Math.min(room.outMm, room.inMm, room.upMm, room.downMm) : 0,
      settings: {
        postMm,
        armMm: Math.hypot(horizontalMm, up),
        tiltDeg: horizontalMm === 0 && up === 0 ? 0 : toDegrees(Math.atan2(up, horizontalMm)),
        ballTiltDeg: ballTilt,
        socket,
      },
    };
  }
  const { shortMm, outMm, upMm, setting } = nearestReach(range, horizontalMm, riseMm);
  const touches = shortMm <= ROUNDING_MM;
  return {
    reached: touches && tilts,
    shortMm: touches ? 0 : shortMm,
    changeMm: touches ? { out: 0, up: 0 } : { out: outMm, up: upMm },
    tiltShortDeg: tilts ? 0 : tiltShortDeg,
    room: touches && tilts ? { outMm: 0, inMm: 0, upMm: 0, downMm: 0 } : null,
    leftMm: 0,
    settings: {
      postMm: setting.postMm,
      armMm: setting.armMm,
      tiltDeg: toDegrees(setting.tiltRad),
      ballTiltDeg: ballTilt,
      socket,
    },
  };
}

/** Which of two answers a drummer would rather have: the lesser shortfall, then the lesser tilt missing, then more room. */
function better(a: Reach, b: Reach): boolean {
  if (a.shortMm !== b.shortMm) return a.shortMm < b.shortMm;
  if (a.tiltShortDeg !== b.tiltShortDeg) return a.tiltShortDeg < b.tiltShortDeg;
  return a.leftMm > b.leftMm;
}

/**
 * Whether an arm brings a piece to a place: `horizontalMm` away from its socket in plan, `riseMm` above it.
 *
 * `tiltDeg`: the piece's tilt; only a ball joint has a range for it, either way round. Booms end in a tilter of their own.
 * Inputs: horizontalMm >= 0; all finite.
 */
export function reachOf(arm: ArmGear, horizontalMm: number, riseMm: number, tiltDeg = 0): Reach {
  const [first, ...others] = waysOf(arm);
  let best = reachOfWay(first, horizontalMm, riseMm, tiltDeg);
  for (const way of others) {
    const reach = reachOfWay(way, horizontalMm, riseMm, tiltDeg);
    if (better(reach, best)) best = reach;
  }
  return best;
}

/**
 * Whether an arm may reach a place whose distance in plan is anything from `near` to `far`: false only where it cannot. Its tilt
 * range and ball joint are not asked, so that this costs next to nothing.
 */
export function mayReach(
  { kind, postMm, armMm }: GearOf<'boom' | 'lArm'>,
  near: number,
  far: number,
  riseMm: number,
): boolean {
  // What the arm itself has to rise: the post takes the rest.
  const low = riseMm - postMm[1];
  const high = riseMm - postMm[0];
  if (kind === 'lArm')
    return (
      low <= ROUNDING_MM && high >= -ROUNDING_MM && near <= armMm[1] + ROUNDING_MM && far >= armMm[0] - ROUNDING_MM
    );
  const least = Math.max(0, low, -high);
  const most = Math.max(Math.abs(low), Math.abs(high));
  return Math.hypot(near, least) <= armMm[1] + ROUNDING_MM && Math.hypot(far, most) >= armMm[0] - ROUNDING_MM;
}

export interface SwungReach {
  readonly reach: Reach;
  /** How far from the socket the piece is with the clamp so swung. */
  readonly horizontalMm: number;
}

/**
 * The same where the socket itself swings: a clamp on an upright turns about it, so the distance may be anything from
 * `near` to `far`. The least swing away from `near` that reaches is taken.
 *
 * Inputs: 0 <= near <= far.
 */
export function reachSwung(arm: ArmGear, near: number, far: number, riseMm: number, tiltDeg = 0): SwungReach {
  const at = (horizontalMm: number): SwungReach => ({
    reach: reachOf(arm, horizontalMm, riseMm, tiltDeg),
    horizontalMm,
  });
  const close = at(near);
  if (close.reach.reached || near === far) return close;
  let best: SwungReach | null = null;
  for (const { range } of waysOf(arm)) {
    for (const horizontalMm of edgesAtHeight(range, riseMm)) {
      if (horizontalMm < near || horizontalMm > far || (best && horizontalMm >= best.horizontalMm)) continue;
      const swung = at(horizontalMm);
      if (swung.reach.reached) best = swung;
    }
  }
  if (best) return best;
  const wide = at(far);
  return better(wide.reach, close.reach) ? wide : close;
}

/**
 * Distances among which is the least one that the arm reaches at this height: its places there are one stretch
 * (reachRegion.ts), which begins at a corner of S or where S's edge crosses an end of the band of heights.
 */
function edgesAtHeight({ post, arm, tilt }: ArmRange, riseMm: number): number[] {
  const found: number[] = [];
  for (const length of arm) for (const angle of tilt) found.push(length * Math.cos(angle));
  for (const p of post) {
    const y = riseMm - p;
    for (const length of arm) if (Math.abs(y) <= length) found.push(Math.sqrt((length - y) * (length + y)));
    for (const angle of tilt) if (y * angle > 0 && Math.abs(angle) < Math.PI / 2) found.push(y / Math.tan(angle));
  }
  return found;
}

export interface ArmOffer {
  readonly arm: ArmGear;
  readonly reach: Reach;
  /** Length that stays unused: the longest post and arm together, less the straight way to the piece. mm. */
  readonly wasteMm: number;
}

/** Post and arm drawn out to their ends, mm. */
export const longestMm = (arm: ArmGear): number =>
  Math.max(...waysOf(arm).map(({ range }) => range.post[1] + range.arm[1]));

/**
 * The arms among some gear that reach, least waste first; equal waste: by id, so that the order is always the same.
 *
 * Inputs: as reachOf(). `kinds`: what may be offered, a drum not on a boom and a cymbal not on a link.
 */
export function armsThatReach(
  gears: readonly Gear[],
  kinds: readonly ArmGear['kind'][],
  horizontalMm: number,
  riseMm: number,
  tiltDeg = 0,
): ArmOffer[] {
  const straight = Math.hypot(horizontalMm, riseMm);
  return gears
    .filter(isArm)
    .filter((arm) => kinds.includes(arm.kind))
    .map(
      (arm): ArmOffer => ({
        arm,
        reach: reachOf(arm, horizontalMm, riseMm, tiltDeg),
        wasteMm: longestMm(arm) - straight,
      }),
    )
    .filter(({ reach }) => reach.reached)
    .sort((a, b) => a.wasteMm - b.wasteMm || (a.arm.id < b.arm.id ? -1 : 1));
}
