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
 * Where a post stands: a clamp on a bar holds it beside the bar, on either side, `reachMm` from the tube's axis; the better side is
 * taken. A clamp on an upright turns about it, so the post may stand anywhere round it. In a socket of another mount it stands
 * at that socket: of a platform, turned with the piece that the platform holds; of an arm, on top of the arm's post.
 *
 * Units:  mm, radians; heights above the deck.
 * Inputs: a plan that reads; mounts without cycles (a cycle is left out).
 */
import { gearOf } from '../gear/catalogue.ts';
import type { ArmGear, Gear, GearOf } from '../gear/schema.ts';
import type { Carrier, Item, Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import { standTopMm } from './floorGear.ts';
import type { RackLayout } from './racks.ts';
import { type Reach, reachOf, reachSwung, socketPlaces } from './reach.ts';

export type Point3 = readonly [number, number, number];

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
}

interface Held {
  readonly item: Item;
  readonly gear: Gear;
}

/** A cymbal's or drum's playing height, else 0: what stands on the deck. */
function heightOf({ item, gear }: Held): number {
  if (item.place.heightMm !== undefined) return item.place.heightMm;
  if (gear.kind === 'drum' || gear.kind === 'cymbal') return gear.playHeightMm;
  return gear.kind === 'stand' ? standTopMm(gear, item) : 0;
}

/** Where a post at (x, y) takes hold of a piece. */
export function holdPoint(item: Item, gear: Gear, x: number, y: number): Point3 {
  const { xMm, yMm } = item.place;
  const height = heightOf({ item, gear });
  if (gear.kind !== 'drum') return [xMm, yMm, height];
  // The head's normal leans to the piece's back by the tilt (layout/drums.ts); half the depth down is the shell's middle.
  const tilt = toRadians(item.place.tiltDeg ?? 0);
  const heading = toRadians(item.place.headingDeg);
  const normal: Point3 = [-Math.sin(heading) * Math.sin(tilt), Math.cos(heading) * Math.sin(tilt), Math.cos(tilt)];
  const half = gear.depthMm / 2;
  const middle: Point3 = [xMm - half * normal[0], yMm - half * normal[1], height - half * normal[2]];
  // The way to the post, laid into the plane of the shell's circle.
  let ux = x - middle[0];
  let uy = y - middle[1];
  if (ux === 0 && uy === 0) [ux, uy] = [Math.sin(heading), -Math.cos(heading)];
  const out = ux * normal[0] + uy * normal[1];
  const across: Point3 = [ux - out * normal[0], uy - out * normal[1], -out * normal[2]];
  const size = Math.hypot(...across);
  if (size === 0) return middle; // a drum on its side, pointing at the post: held at its middle
  const radius = gear.diameterMm / 2;
  return [
    middle[0] + (radius * across[0]) / size,
    middle[1] + (radius * across[1]) / size,
    middle[2] + (radius * across[2]) / size,
  ];
}

type Racks = Readonly<Record<string, RackLayout>>;

interface Foot {
  readonly clampAt: Point3;
  /** Places where the post may stand; a swinging clamp gives the radius that it swings on instead. */
  readonly posts: readonly Point3[];
  readonly swingMm: number;
}

/** Resolves carriers; keeps the poses that sockets need. Good for one plan and setup. */
export class MountResolver {
  private readonly poses = new Map<string, MountPose | null>();
  private readonly plan: Plan;
  private readonly setup: Setup;
  private readonly racks: Racks;
  constructor(plan: Plan, setup: Setup, racks: Racks) {
    this.plan = plan;
    this.setup = setup;
    this.racks = racks;
  }

  private item(id: string): Held | null {
    const item = Object.hasOwn(this.setup.pieces, id) ? this.setup.pieces[id] : undefined;
    if (item?.kind !== 'item') return null;
    const gear = gearOf(this.plan.gear, item.gear);
    return gear ? { item, gear } : null;
  }

  /** Where posts on a carrier may stand, or null if it is not there. */
  private foot(carrier: Carrier, clampReachMm: number): Foot | null {
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
        const place = pose && socketPlaces(pose.arm)[carrier.socket];
        if (!pose || !holder || !place) return null;
        const heading = toRadians(holder.item.place.headingDeg);
        const c = Math.cos(heading);
        const s = Math.sin(heading);
        const at: Point3 = [
          pose.post[0] + place.xMm * c - place.yMm * s,
          pose.post[1] + place.xMm * s + place.yMm * c,
          pose.elbow[2],
        ];
        return { clampAt: at, posts: [at], swingMm: clampReachMm };
      }
      case 'piece': {
        const holder = this.item(carrier.piece);
        if (!holder) return null;
        const { item, gear } = holder;
        const z =
          gear.kind === 'bassDrum'
            ? gear.diameterMm + 2 * gear.hoopMm
            : gear.kind === 'stand'
              ? standTopMm(gear, item)
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

  /** The pose of a piece's own mount; null without an arm, or if what carries it is not there. */
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
    if (!held || !mount || mount.arm === null) return null;
    const arm = gearOf(this.plan.gear, mount.arm);
    if (!isArm(arm)) return null;
    const clamp = this.clampOf(mount.clamp);
    const foot = this.foot(mount.carrier, clamp?.reachMm ?? 0);
    if (!foot) return null;
    const { item, gear } = held;
    const tiltDeg = item.place.tiltDeg ?? 0;
    const poses = foot.posts.map((at): MountPose => {
      const target = holdPoint(item, gear, at[0], at[1]);
      const ux = target[0] - at[0];
      const uy = target[1] - at[1];
      const direct = Math.hypot(ux, uy);
      const rise = target[2] - at[2];
      const swung =
        foot.swingMm > 0
          ? reachSwung(arm, Math.abs(direct - foot.swingMm), direct + foot.swingMm, rise, tiltDeg)
          : { reach: reachOf(arm, direct, rise, tiltDeg), horizontalMm: direct };
      const post = foot.swingMm > 0 ? swungPost(at, target, foot.swingMm, swung.horizontalMm) : at;
      return {
        piece: id,
        holds: 'mount',
        carrier: mount.carrier,
        arm,
        clamp,
        clampAt: foot.clampAt,
        post,
        elbow: [post[0], post[1], post[2] + swung.reach.settings.postMm],
        target,
        horizontalMm: swung.horizontalMm,
        riseMm: rise,
        tiltDeg,
        reach: swung.reach,
      };
    });
    return poses.reduce((best, each) => (sooner(each, best) ? each : best));
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
      });
    }
    return poses;
  }
}

const isArm = (gear: Gear | undefined): gear is ArmGear =>
  gear?.kind === 'boom' || gear?.kind === 'lArm' || gear?.kind === 'platform' || gear?.kind === 'link';

/** Differences below this are rounding, and neither side is better for it: mm and degrees. */
const ALIKE = 1e-6;

/**
 * Whether to take a's side before b's: the lesser shortfall wins, then the lesser missing tilt, then more left; sides that are
 * alike so far: the one nearer to the audience, then nearer to the centre line, so that a mirrored kit has the mirrored arms.
 */
function sooner(a: MountPose, b: MountPose): boolean {
  const steps = [
    a.reach.shortMm - b.reach.shortMm,
    a.reach.tiltShortDeg - b.reach.tiltShortDeg,
    b.reach.leftMm - a.reach.leftMm,
    ...nearerFront(a.post, b.post),
  ];
  return (steps.find((step) => Math.abs(step) > ALIKE) ?? 0) < 0;
}

const nearerFront = (a: Point3, b: Point3): number[] => [a[1] - b[1], Math.abs(a[0]) - Math.abs(b[0])];

/** A post on a circle about an upright, `away` from the target in plan. Of the two such places, the one nearer to the audience. */
function swungPost(at: Point3, target: Point3, swing: number, away: number): Point3 {
  const dx = target[0] - at[0];
  const dy = target[1] - at[1];
  const d = Math.hypot(dx, dy);
  if (d === 0) return [at[0], at[1] - swing, at[2]];
  const along = Math.min(Math.max((d * d + swing * swing - away * away) / (2 * d), -swing), swing);
  const aside = Math.sqrt(Math.max(0, (swing - along) * (swing + along)));
  const [left, right] = [1, -1].map(
    (side): Point3 => [
      at[0] + (along * dx - side * aside * dy) / d,
      at[1] + (along * dy + side * aside * dx) / d,
      at[2],
    ],
  );
  return (nearerFront(left, right).find((step) => Math.abs(step) > ALIKE) ?? 0) <= 0 ? left : right;
}
