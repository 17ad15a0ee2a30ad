/**
 * Every mount of a setup resolved in space: where its clamp is, where the arm's post stands, where the piece is taken hold
 * of, and how the arm must be set to get there (reach.ts).
 *
 * Where a piece is taken hold of:
 * - a drum at its shell, half-way down, on the side of the post: brackets and suspension rings sit about there and turn to
 *   face it. With the post inside the shell's circle it is still the nearest point of the shell.
 * - a cymbal at its centre in its edge plane; its felt sits a few cm above, within what any tilter allows.
 * - anything else at its own anchor.
 *
 * Where a post stands: a clamp on a bar holds it beside the bar, on either side, `reachMm` from the tube's axis. A clamp on an upright
 * turns about it, so the post may stand anywhere round it. The plan may say which side; else, and of all posts that reach, the first
 * is taken with which the arm clears its own piece and everything else (clearest()). In a socket of another mount it stands
 * at that socket: of a platform, turned with the piece that the platform holds; of an arm, on top of the arm's post.
 *
 * A platform whose mount names an arm of its own (`platformArm`) holds its piece by that: the arm stands in the tom socket from
 * which it reaches best, never one that another mount names, and the pose is the arm's, with the head beneath it. A platform
 * without one holds its piece at a bare socket, as if the head turned to it.
 *
 * Units:  mm, radians; heights above the deck.
 * Inputs: a plan that reads; mounts without cycles (a cycle is left out).
 */
import { gearOf } from '../gear/catalogue.ts';
import {
  type ArmGear,
  heightMmIn,
  isArm,
  isPlaceable,
  isSocketArm,
  placedKind,
  type SocketArm,
  socketsOf,
} from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import type { Box, OpenBox } from '../geometry/support.ts';
import type { Carrier, Item, Mount, Plan, Setup } from '../plan/schema.ts';
import { toDegrees, toRadians } from '../units.ts';
import type { Body } from './body.ts';
import { type Held, holdPoint, type Point3 } from './holdPoint.ts';
import { type KitFront, kitFront, nearerFront } from './kitFront.ts';
import { type OwnSolid, ownSolid } from './ownSolid.ts';
import { HEAD_RADIUS_MM, headHeight, headRanges, onPlatform } from './platformHead.ts';
import type { RackLayout } from './racks.ts';
import { type Reach, rangeOf, reachOf, reachSwung } from './reach.ts';
import { usablePosts } from './reachRegion.ts';
import { ENOUGH_MM, roomRound, type Surroundings } from './roomRound.ts';
import { hasArm, seatedOn, seatOf, standHeight, standReach } from './seats.ts';
import { fromPost, type InSocket, socketUses } from './sockets.ts';

export type { Point3 } from './holdPoint.ts';

/** A platform beneath the arm that holds its piece. */
export interface PlatformHead {
  readonly platform: GearOf<'platform'>;
  /** The platform's own post, from its clamp up to the head. */
  readonly foot: Point3;
  readonly top: Point3;
  /** All its sockets in space, at the head's height; and which of them the arm stands in. */
  readonly sockets: readonly Point3[];
  readonly socket: number;
}

/** A socket of a bare platform at the height of its clamp, and where an arm from there would take hold of the piece. */
export interface BareSocket {
  readonly at: Point3;
  readonly target: Point3;
}

export interface MountPose {
  readonly piece: string;
  readonly holds: 'mount' | 'tie';
  readonly carrier: Carrier;
  readonly arm: ArmGear;
  readonly clamp: GearOf<'clamp'> | null;
  /** On the axis of the tube that carries it; for sockets and stands the post's own place. */
  readonly clampAt: Point3;
  /** The foot of the arm's post. */
  readonly post: Point3;
  /** Where the post ends and the arm begins. */
  readonly elbow: Point3;
  /** Where the piece is taken hold of. */
  readonly target: Point3;
  readonly horizontalMm: number;
  readonly riseMm: number;
  readonly tiltDeg: number;
  readonly reach: Reach;
  readonly head: PlatformHead | null;
  /** The drum or cymbal that is held, as a solid; null: neither. */
  readonly own: OwnSolid | null;
  /** What is held, and for a platform without an arm of its own: the sockets that one could stand in. */
  readonly held: Gear['kind'];
  readonly bare: readonly BareSocket[];
  /** The arm is part of the stand that carries it, and has its id; the setting's post is counted from the deck, the stand's tube included. */
  readonly isOfStand?: true;
}

type Racks = Readonly<Record<string, RackLayout>>;

export interface Foot {
  readonly clampAt: Point3;
  /** Places where the post may stand; a swinging clamp gives the radius that it swings on instead. */
  readonly posts: readonly Point3[];
  readonly swingMm: number;
}

/** Resolves carriers; keeps the poses that sockets need. Good for one plan and setup. */
export class MountResolver {
  private readonly poses = new Map<string, MountPose | null>();
  private sockets: ReadonlyMap<string, readonly InSocket[]> | null = null;
  private seats: ReturnType<typeof seatedOn> | null = null;
  private readonly plan: Plan;
  private readonly setup: Setup;
  private readonly racks: Racks;
  private readonly round: Surroundings | null;
  private readonly front: KitFront;
  /** What is near the arm of a piece. */
  private readonly near = new Map<string, readonly Body[]>();
  /** `round`: what arms must keep clear of; left out, nothing but their own pieces. */
  constructor(plan: Plan, setup: Setup, racks: Racks, round: Surroundings | null = null) {
    this.plan = plan;
    this.setup = setup;
    this.racks = racks;
    this.round = round;
    this.front = kitFront(plan, setup);
  }

  /** A pose that is known already. */
  take(id: string, pose: MountPose | null): void {
    this.poses.set(id, pose);
  }

  private item(id: string): Held | null {
    const item = Object.hasOwn(this.setup.pieces, id) ? this.setup.pieces[id] : undefined;
    if (item?.kind !== 'item') return null;
    const gear = gearOf(this.plan.gear, item.gear);
    return gear ? { item, gear } : null;
  }

  /** Where posts on a carrier may stand, or null if it is not there. A bar's left side first, as one goes along it. */
  foot(carrier: Carrier, clampReachMm: number): Foot | null {
    switch (carrier.on) {
      case 'bar': {
        const bar = this.racks[carrier.rack]?.bars.find((each) => each.id === carrier.bar);
        if (!bar) return null;
        const { x, y, headingRad } = bar.pointAt(carrier.atMm);
        const nx = -Math.sin(headingRad) * clampReachMm;
        const ny = Math.cos(headingRad) * clampReachMm;
        const posts: Point3[] = [
          [x + nx, y + ny, bar.z],
          [x - nx, y - ny, bar.z],
        ];
        return { clampAt: [x, y, bar.z], posts: clampReachMm > 0 ? posts : [[x, y, bar.z]], swingMm: 0 };
      }
      case 'leg': {
        const leg = this.racks[carrier.rack]?.legs.find((each) => each.id === carrier.leg);
        if (!leg) return null;
        const at: Point3 = [leg.x, leg.y, carrier.heightMm];
        return { clampAt: at, posts: [at], swingMm: clampReachMm };
      }
      case 'socket': {
        const pose = this.pose(carrier.piece);
        const holder = this.item(carrier.piece);
        const place = pose && socketsOf(pose.head?.platform ?? pose.arm)[carrier.socket];
        if (!pose || !holder || !place) return null;
        const at = pose.head?.sockets[carrier.socket] ?? fromPost(holder.item, place, pose.post, pose.elbow[2]);
        return { clampAt: at, posts: [at], swingMm: clampReachMm };
      }
      case 'piece': {
        const holder = this.item(carrier.piece);
        if (!holder) return null;
        const { item, gear } = holder;
        const z =
          gear.kind === 'stand'
            ? standHeight(this.plan.gear, item, gear, this.seated().get(item.id))
            : isPlaceable(gear)
              ? (placedKind(gear).carries?.atMm(gear, heightMmIn(item.place, gear) ?? 0) ?? 0)
              : 0;
        const at: Point3 = [item.place.xMm, item.place.yMm, z];
        return { clampAt: at, posts: [at], swingMm: clampReachMm };
      }
    }
  }

  private clampOf(id: string | null): GearOf<'clamp'> | null {
    const gear = id === null ? undefined : gearOf(this.plan.gear, id);
    return gear?.kind === 'clamp' ? gear : null;
  }

  /** The pose of a piece's own mount; null without an arm, its own or its stand's, or if what carries it is not there. */
  pose(id: string): MountPose | null {
    const before = this.poses.get(id);
    if (before !== undefined) return before;
    this.poses.set(id, null); // a cycle ends here
    const made = this.make(id);
    this.poses.set(id, made);
    return made;
  }

  private make(id: string): MountPose | null {
    const held = this.item(id);
    const mount = held?.item.mount;
    if (!held || !mount) return null;
    if (mount.arm === null) return this.onStand(held, mount.carrier);
    const arm = gearOf(this.plan.gear, mount.arm);
    if (!isArm(arm)) return null;
    const clamp = this.clampOf(mount.clamp);
    const foot = this.foot(mount.carrier, clamp?.reachMm ?? 0);
    if (!foot) return null;
    const { item, gear } = held;
    const tiltDeg = item.place.tiltDeg ?? 0;
    const own = ownSolid(item, gear);
    if (arm.kind === 'platform') {
      const inHead = mount.platformArm ? gearOf(this.plan.gear, mount.platformArm) : undefined;
      if (isSocketArm(inHead)) return this.makeOnPlatform(held, mount.carrier, clamp, foot, arm, inHead);
    }
    const places: Places = (swings) =>
      postsOn(foot, mount.side).flatMap((at) => {
        const target = holdPoint(item, gear, at[0], at[1]);
        const rise = target[2] - at[2];
        return placesRound(this.front, foot, mount.side, arm, at, target, rise, tiltDeg, swings).map(
          ({ reach, horizontalMm, post }): MountPose => ({
            piece: id,
            holds: 'mount',
            carrier: mount.carrier,
            arm,
            clamp,
            clampAt: foot.clampAt,
            post,
            elbow: [post[0], post[1], post[2] + reach.settings.postMm],
            target,
            horizontalMm,
            riseMm: rise,
            tiltDeg,
            reach,
            head: null,
            own,
            held: gear.kind,
            bare: arm.kind === 'platform' ? this.bareSockets(held, arm, post) : NONE,
          }),
        );
      });
    return this.clearest(places, (pose) => pose);
  }

  /**
   * Of all places and settings that reach: the first with room enough round it, else the one with the most (roomRound.ts). In order:
   * places as inOrder() has them, and at each the tallest post first, then lower ones. Nothing reaches: the first place.
   * `finish`: what is left to be set at a place before it can be looked at.
   */
  private clearest(places: Places, finish: (pose: MountPose) => MountPose): MountPose {
    let best: MountPose | null = null;
    let most = Number.NEGATIVE_INFINITY;
    for (const swings of [LEAST_SWING, FARTHER_SWINGS]) {
      for (const place of bestFirst(this.front, places(swings))) {
        const set = finish(place);
        best ??= set;
        if (!set.reach.reached) return best; // and no place after it does
        const near = this.near.get(set.piece) ?? this.look(set.piece, set.carrier, this.region(set.piece));
        const room = roomRound(set, near);
        if (room >= ENOUGH_MM) return set;
        if (room > most + ALIKE) {
          most = room;
          best = set;
        }
        for (const postMm of otherPosts(set)) {
          const pose = withPost(set, postMm);
          const room = roomRound(pose, near);
          if (room >= ENOUGH_MM) return pose;
          if (room <= most + ALIKE) continue;
          most = room;
          best = pose;
        }
      }
    }
    if (best === null) throw new Error('A foot has a place.');
    return best;
  }

  /** What the arm of a piece has to keep clear of, among what is round it now. */
  look(id: string, carrier: Carrier, region: Box | null): readonly Body[] {
    const near = (region && this.round?.near(id, carrier, region)) ?? [];
    this.near.set(id, near);
    return near;
  }

  /** Where the arm of a piece may be, whatever its setting, as a box in plan; null without an arm. */
  region(id: string): Box | null {
    const held = this.item(id);
    const mount = held?.item.mount;
    if (!held || !mount) return null;
    const { item, gear } = held;
    const arm = gearOf(this.plan.gear, mount.platformArm ?? mount.arm ?? '');
    const foot = isArm(arm) ? this.foot(mount.carrier, this.clampOf(mount.clamp)?.reachMm ?? 0) : null;
    if (!foot) return null;
    const box: OpenBox = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
    const platform = mount.platformArm && mount.arm ? gearOf(this.plan.gear, mount.arm) : undefined;
    const head = platform?.kind === 'platform' ? platformReach(platform) : 0;
    for (const [x, y] of foot.posts) {
      widen(box, x, y, foot.swingMm + head);
      const target = holdPoint(item, gear, x, y);
      widen(box, target[0], target[1], 0);
      // From a socket of the head the piece is taken hold of elsewhere.
      if (gear.kind === 'drum' && head > 0)
        widen(box, item.place.xMm, item.place.yMm, gear.diameterMm / 2 + gear.depthMm);
    }
    return grown(box, ENOUGH_MM + HEAD_RADIUS_MM);
  }

  /** What sits on stands. */
  private seated(): ReturnType<typeof seatedOn> {
    this.seats ??= seatedOn(this.setup);
    return this.seats;
  }

  /** A piece on the boom or an arm of a stand, which are parts of that stand. Null where it sits on it in another way, or not at all. */
  private onStand({ item, gear }: Held, carrier: Carrier): MountPose | null {
    const seat = seatOf(this.plan.gear, this.setup, item, gear, this.seated());
    if (!seat || !hasArm(seat)) return null;
    const { xMm, yMm } = seat.stand.place;
    const tiltDeg = item.place.tiltDeg ?? 0;
    const target = holdPoint(item, gear, xMm, yMm);
    const horizontalMm = Math.hypot(target[0] - xMm, target[1] - yMm);
    const isAlone = this.seated().get(seat.stand.id)?.length === 1;
    const { arm, reach } = standReach(seat, isAlone, horizontalMm, target[2], tiltDeg);
    const top: Point3 = [xMm, yMm, seat.heightMm];
    return {
      piece: item.id,
      holds: 'mount',
      carrier,
      arm,
      clamp: null,
      clampAt: top,
      post: top,
      elbow: [xMm, yMm, reach.settings.postMm],
      target,
      horizontalMm,
      riseMm: target[2],
      tiltDeg,
      reach,
      head: null,
      own: ownSolid(item, gear),
      held: gear.kind,
      bare: NONE,
      isOfStand: true,
    };
  }

  /** What stands in the sockets of a piece's arm. */
  private inSockets(id: string): readonly InSocket[] {
    this.sockets ??= socketUses(this.setup);
    return this.sockets.get(id) ?? [];
  }

  /** Sockets for the platform's own arm: free ones for toms, else any free one, else (all are named by others) those for toms. */
  private ownSockets(id: string, { sockets }: GearOf<'platform'>): number[] {
    const taken = new Set(this.inSockets(id).map(({ socket }) => socket));
    const all = sockets.map((_, k) => k);
    const free = all.filter((k) => !taken.has(k));
    const toms = (some: number[]) => some.filter((k) => sockets[k].use === 'tom');
    return [toms(free), free, toms(all), all].find((some) => some.length > 0) ?? [];
  }

  private bareSockets({ item, gear }: Held, platform: GearOf<'platform'>, post: Point3): BareSocket[] {
    return this.ownSockets(item.id, platform).map((k) => {
      const at = fromPost(item, platform.sockets[k], post, post[2]);
      return { at, target: holdPoint(item, gear, at[0], at[1]) };
    });
  }

  /** Where it swings about an upright, each socket swings as well: on as large a circle about its own middle. */
  private makeOnPlatform(
    { item, gear }: Held,
    carrier: Carrier,
    clamp: GearOf<'clamp'> | null,
    foot: Foot,
    platform: GearOf<'platform'>,
    own: SocketArm,
  ): MountPose {
    const tiltDeg = item.place.tiltDeg ?? 0;
    const solid = ownSolid(item, gear);
    const long = onPlatform(platform, own);
    const side = item.mount?.side;
    const places: Places = (swings) =>
      postsOn(foot, side).flatMap((at) =>
        this.ownSockets(item.id, platform).flatMap((socket) => {
          const place = platform.sockets[socket];
          const middle = fromPost(item, place, at, at[2]);
          const target = holdPoint(item, gear, middle[0], middle[1]);
          const rise = target[2] - at[2];
          return placesRound(this.front, foot, side, long, middle, target, rise, tiltDeg, swings).map(
            ({ reach, horizontalMm, post }): MountPose => {
              const base: Point3 = [at[0] + post[0] - middle[0], at[1] + post[1] - middle[1], at[2]];
              const head: PlatformHead = { platform, foot: base, top: base, sockets: [], socket };
              return {
                piece: item.id,
                holds: 'mount',
                carrier,
                arm: own,
                clamp,
                clampAt: foot.clampAt,
                post,
                elbow: post,
                target,
                horizontalMm,
                riseMm: rise,
                tiltDeg,
                reach,
                head,
                own: solid,
                held: gear.kind,
                bare: NONE,
              };
            },
          );
        }),
      );
    return this.clearest(places, (pose) => this.withHead(item, platform, own, pose));
  }

  /** The platform's head at a height where the arms on it reach, and the arm set from there. */
  private withHead(item: Item, platform: GearOf<'platform'>, own: SocketArm, pose: MountPose): MountPose {
    const { foot: base, socket } = pose.head as PlatformHead;
    const heights = headRanges(platform, own, pose.horizontalMm, pose.riseMm, pose.reach.settings.postMm);
    const height = headHeight(heights, this.headsForOthers(item, platform, base));
    const z = base[2] + height;
    const riseMm = pose.riseMm - height;
    const reach = reachOf(own, pose.horizontalMm, riseMm, pose.tiltDeg);
    return {
      ...pose,
      post: [pose.post[0], pose.post[1], z],
      elbow: [pose.post[0], pose.post[1], z + reach.settings.postMm],
      riseMm,
      reach,
      head: {
        platform,
        foot: base,
        top: [base[0], base[1], z],
        sockets: platform.sockets.map((place) => fromPost(item, place, base, z)),
        socket,
      },
    };
  }

  /** For each arm in another socket of the platform: the heights of the head with which it reaches its own piece. */
  private headsForOthers(holder: Item, platform: GearOf<'platform'>, base: Point3) {
    return this.inSockets(holder.id).flatMap(({ id, socket, mount }) => {
      const held = this.item(id);
      const place = platform.sockets[socket];
      const arm = mount?.arm ? gearOf(this.plan.gear, mount.arm) : undefined;
      if (!held || !place || !isSocketArm(arm)) return [];
      const at = fromPost(holder, place, base, base[2]);
      const target = holdPoint(held.item, held.gear, at[0], at[1]);
      const away = Math.hypot(target[0] - at[0], target[1] - at[1]);
      return [headRanges(platform, arm, away, target[2] - base[2], null)];
    });
  }

  /** The links that tie a stand to something: from the tube that carries them to the stand's tube, axis to axis. */
  ties(id: string): MountPose[] {
    const held = this.item(id);
    const poses: MountPose[] = [];
    for (const tie of held?.item.ties ?? []) {
      const link = gearOf(this.plan.gear, tie.link);
      const foot = this.foot(tie.carrier, 0);
      if (!held || link?.kind !== 'link' || !foot) continue;
      const target: Point3 = [held.item.place.xMm, held.item.place.yMm, tie.heightMm];
      const at = foot.clampAt;
      const horizontalMm = Math.hypot(target[0] - at[0], target[1] - at[1]);
      const riseMm = target[2] - at[2];
      poses.push({
        piece: id,
        holds: 'tie',
        carrier: tie.carrier,
        arm: link,
        clamp: this.clampOf(tie.clamp),
        clampAt: at,
        post: at,
        elbow: at,
        target,
        horizontalMm,
        riseMm,
        tiltDeg: 0,
        reach: reachOf(link, horizontalMm, riseMm),
        head: null,
        own: null,
        held: held.gear.kind,
        bare: NONE,
      });
    }
    return poses;
  }
}

const NONE: readonly BareSocket[] = [];

/** Differences below this are rounding, and neither side is better for it: mm and degrees. */
const ALIKE = 1e-6;

/** The places for a post with a clamp so swung, as shares of what is left beyond the least swing that reaches; one that does not swing has its places at the least. */
type Places = (swings: readonly number[]) => MountPose[];

const LEAST_SWING: readonly number[] = [0];
const FARTHER_SWINGS: readonly number[] = [0.25, 0.5, 0.75];

/**
 * Which place comes first: the lesser shortfall, the lesser missing tilt, more left; those that are alike so far: the one nearer to
 * the audience, then nearer to the kit's middle line (kitFront.ts), so that a turned or mirrored kit has the turned or mirrored arms.
 */
function inOrder(front: KitFront, a: MountPose, b: MountPose): number {
  const short = a.reach.shortMm - b.reach.shortMm;
  if (Math.abs(short) > ALIKE) return short;
  const tilt = a.reach.tiltShortDeg - b.reach.tiltShortDeg;
  if (Math.abs(tilt) > ALIKE) return tilt;
  const left = b.reach.leftMm - a.reach.leftMm;
  if (Math.abs(left) > ALIKE) return left;
  return nearerFront(front, a.post, b.post).find((step) => Math.abs(step) > ALIKE) ?? 0;
}

/** Sorted by inOrder(); most arms have one place or two. */
function bestFirst(front: KitFront, places: MountPose[]): readonly MountPose[] {
  if (places.length > 2) return places.sort((a, b) => inOrder(front, a, b));
  return places.length === 2 && inOrder(front, places[0], places[1]) > 0 ? [places[1], places[0]] : places;
}

type Side = Mount['side'];

/** The places of a foot on the side that the plan asks for; a foot with one place has no sides. */
function postsOn({ posts }: Foot, side: Side): readonly Point3[] {
  return side === undefined || posts.length < 2 ? posts : [posts[side === 'left' ? 0 : 1]];
}

interface PlaceRound {
  readonly reach: Reach;
  readonly horizontalMm: number;
  readonly post: Point3;
}

/** The places for a post about `at`, where it takes hold of a piece at `target`: `at` itself; about an upright, both sides of it. */
function placesRound(
  front: KitFront,
  { swingMm }: Foot,
  side: Side,
  arm: ArmGear,
  at: Point3,
  target: Point3,
  rise: number,
  tiltDeg: number,
  swings: readonly number[],
): PlaceRound[] {
  const direct = Math.hypot(target[0] - at[0], target[1] - at[1]);
  if (swingMm === 0)
    return swings === LEAST_SWING
      ? [{ reach: reachOf(arm, direct, rise, tiltDeg), horizontalMm: direct, post: at }]
      : [];
  const far = direct + swingMm;
  const least = reachSwung(arm, Math.abs(direct - swingMm), far, rise, tiltDeg);
  return swings.flatMap((share): PlaceRound[] => {
    const horizontalMm = least.horizontalMm + (far - least.horizontalMm) * share;
    const reach = share === 0 ? least.reach : reachOf(arm, horizontalMm, rise, tiltDeg);
    if (share > 0 && !reach.reached) return [];
    const both = swungPosts(front, at, target, swingMm, horizontalMm);
    const asked = side === undefined ? both : [both[side === 'left' ? 0 : 1]];
    return asked.map((post) => ({ reach, horizontalMm, post }));
  });
}

/** Posts on a circle about an upright, `away` from the target in plan: to the left as one looks from the upright to the target, to the right. */
function swungPosts(
  front: KitFront,
  at: Point3,
  target: Point3,
  swing: number,
  away: number,
): readonly [Point3, Point3] {
  const dx = target[0] - at[0];
  const dy = target[1] - at[1];
  const d = Math.hypot(dx, dy);
  if (d === 0) {
    const facing = toRadians(front.headingDeg);
    const post: Point3 = [at[0] + swing * Math.sin(facing), at[1] - swing * Math.cos(facing), at[2]];
    return [post, post];
  }
  const along = Math.min(Math.max((d * d + swing * swing - away * away) / (2 * d), -swing), swing);
  const aside = Math.sqrt(Math.max(0, (swing - along) * (swing + along)));
  const on = (way: 1 | -1): Point3 => [
    at[0] + (along * dx - way * aside * dy) / d,
    at[1] + (along * dy + way * aside * dx) / d,
    at[2],
  ];
  return [on(1), on(-1)];
}

/** Posts tried in one stretch of those that reach, its ends included. */
const POSTS = 9;

/** Instead of the post as it is set: lower ones of the same stretch, then those of a second stretch. */
function* otherPosts({ arm, reach, horizontalMm, riseMm }: MountPose): Iterable<number> {
  const set = reach.settings.postMm;
  if (arm.kind !== 'boom') return;
  const stretches = usablePosts(rangeOf(arm), horizontalMm, riseMm);
  stretches.sort((a, b) => Number(b[1] === set) - Number(a[1] === set));
  for (const [low, high] of stretches)
    for (let k = 0; k < POSTS && high - low > ALIKE; k++) {
      const post = high - ((high - low) * k) / (POSTS - 1);
      if (post !== set) yield post;
    }
}

/** The same arm with another post that reaches. */
function withPost(pose: MountPose, postMm: number): MountPose {
  const { post, reach, horizontalMm, riseMm } = pose;
  if (postMm === reach.settings.postMm) return pose;
  const up = riseMm - postMm;
  const settings = {
    ...reach.settings,
    postMm,
    armMm: Math.hypot(horizontalMm, up),
    tiltDeg: horizontalMm === 0 && up === 0 ? 0 : toDegrees(Math.atan2(up, horizontalMm)),
  };
  return { ...pose, elbow: [post[0], post[1], post[2] + postMm], reach: { ...reach, settings } };
}

function widen(box: OpenBox, x: number, y: number, by: number): void {
  box.minX = Math.min(box.minX, x - by);
  box.minY = Math.min(box.minY, y - by);
  box.maxX = Math.max(box.maxX, x + by);
  box.maxY = Math.max(box.maxY, y + by);
}

const grown = ({ minX, minY, maxX, maxY }: Box, by: number): Box => ({
  minX: minX - by,
  minY: minY - by,
  maxX: maxX + by,
  maxY: maxY + by,
});

const platformReach = ({ sockets }: GearOf<'platform'>): number =>
  sockets.reduce((most, { xMm, yMm }) => Math.max(most, Math.hypot(xMm, yMm)), 0);
