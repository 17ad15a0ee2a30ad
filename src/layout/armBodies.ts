/**
 * Arms and links as bodies: what a mount takes of the air, and what its hardware weighs.
 *
 * A post is a disc over its height; an arm is a capsule, or several in line where it rises, each with the height interval of
 * its two ends: a bound from outside. A platform's head is a capsule from its post to each socket.
 *
 * The mass of arm, clamp and platform is on the arm's first body: the clamp at its tube, the arm half-way between post and piece, the
 * platform half-way up its post (their own centres are nobody's published numbers; half-way is exact for an even tube).
 */
import { gearOf, massKgOf } from '../gear/catalogue.ts';
import { capsule, disc, type Swept } from '../geometry/shapes.ts';
import { between, type Rod } from '../geometry/solids.ts';
import type { Box } from '../geometry/support.ts';
import { keeper, sameItems } from '../keep.ts';
import { own } from '../plan/places.ts';
import type { Item, Piece, Plan, Setup } from '../plan/schema.ts';
import { carrierPiece } from './assemblies.ts';
import type { Body } from './body.ts';
import { kitFront } from './kitFront.ts';
import { armRadius, HEAD_RADIUS_MM } from './platformHead.ts';
import type { RackLayout } from './racks.ts';
import { type MountPose, MountResolver, type Point3 } from './reachMounts.ts';
import { Surroundings } from './roomRound.ts';
import { seatedOn } from './seats.ts';
import { socketUses } from './sockets.ts';

interface PointMass {
  readonly massKg: number;
  readonly at: Point3;
}

/** For a bent link whose gear does not say: what the catalogue's have. Common practice, no source. */
const LINK_END_MM = 50;
const LINK_RISER_MM = 40;

/** A rising arm is cut into stretches that rise no more than this, so that each has a height interval of its own. */
const SLAB_MM = 60;
const MOST_SLABS = 12;

const half = (a: Point3, b: Point3): Point3 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];

/**
 * The way from the post's top to the piece: straight, but for a bent link that rises. That has a level stretch at the height of
 * each of its own ends, a riser after each, and its middle at the height it passes at. Where it is too short for that, ends and
 * risers are shortened alike and meet in the middle. Ends that are higher than it passes: straight.
 */
export function armPath({ arm, elbow, target }: MountPose): readonly Point3[] {
  if (arm.kind !== 'link' || arm.passHeightMm <= Math.max(elbow[2], target[2])) return [elbow, target];
  const length = Math.hypot(target[0] - elbow[0], target[1] - elbow[1]);
  if (length === 0) return [elbow, target];
  const end = arm.endMm ?? LINK_END_MM;
  const riser = Math.max(arm.riserMm ?? LINK_RISER_MM, 1);
  const part = Math.min(1, length / (2 * (end + riser))) / length;
  const at = (share: number, z: number): Point3 => {
    const [x, y] = between(elbow, target, share);
    return [x, y, z];
  };
  const low = end * part;
  const high = (end + riser) * part;
  const over = arm.passHeightMm;
  return [elbow, at(low, elbow[2]), at(high, over), at(1 - high, over), at(1 - low, target[2]), target];
}

function middleOf(points: readonly Point3[]): Point3 {
  const sum = points.reduce(([x, y, z], p) => [x + p[0], y + p[1], z + p[2]] as const, [0, 0, 0] as const);
  return [sum[0] / points.length, sum[1] / points.length, sum[2] / points.length];
}

/** Where a boom's rod ends behind its tilter: as much as is not arm. Null: nothing stands out there, or its gear does not say. */
export function tailEnd({ arm, elbow, target, reach }: MountPose): Point3 | null {
  if (arm.kind !== 'boom' || arm.rodMm === undefined) return null;
  const { armMm } = reach.settings;
  const length = Math.hypot(target[0] - elbow[0], target[1] - elbow[1], target[2] - elbow[2]);
  if (arm.rodMm <= armMm || length === 0) return null;
  return between(elbow, target, -(arm.rodMm - armMm) / length);
}

/** Hardware's mass and its centre, kg and mm; null if any of it is unmeasured. */
function hardwareMass(pose: MountPose): PointMass | null {
  const { arm, clamp, clampAt, post, target, head } = pose;
  const parts = [
    { massKg: clamp ? massKgOf(clamp) : 0, at: clampAt },
    { massKg: massKgOf(arm), at: half(tailEnd(pose) ?? post, target) },
  ];
  if (head) parts.push({ massKg: massKgOf(head.platform), at: half(head.foot, middleOf(head.sockets)) });
  let massKg = 0;
  const at: [number, number, number] = [0, 0, 0];
  for (const part of parts) {
    if (part.massKg === null) return null;
    massKg += part.massKg;
    for (let i = 0; i < 3; i++) at[i] += part.massKg * part.at[i];
  }
  return { massKg, at: massKg > 0 ? [at[0] / massKg, at[1] / massKg, at[2] / massKg] : clampAt };
}

/** `assembly`: of the piece that is held; `label`: what findings call it. */
export function armBodies(pose: MountPose, index: number, assembly: string, label: string): Body[] {
  const { piece, arm, post, elbow, head } = pose;
  const radius = armRadius(arm);
  const link = pose.holds === 'tie';
  const name = link ? `link${index + 1}` : 'arm';
  const hardware = hardwareMass(pose);
  const bodies: Body[] = [];
  const add = (part: string, shape: Swept, low: number, high: number, solid?: Rod) => {
    const first = bodies.length === 0;
    bodies.push({
      piece,
      label,
      assembly,
      kind: link ? 'link' : 'arm',
      touchesFloor: false,
      id: `${piece}/${part}`,
      part,
      z0: Math.max(0, low),
      z1: Math.max(0, high),
      shape,
      solid,
      massKg: first ? (hardware?.massKg ?? null) : 0,
      massCentre: first ? (hardware?.at ?? null) : null,
    });
  };
  const along = (called: string, path: readonly Point3[]) => {
    const [a, b] = path;
    const slabs = path.length > 2 ? 1 : Math.min(MOST_SLABS, Math.max(1, Math.ceil(Math.abs(b[2] - a[2]) / SLAB_MM)));
    const pieces = slabs * (path.length - 1);
    for (let k = 0; k < pieces; k++) {
      const from = slabs === 1 ? path[k] : between(a, b, k / slabs);
      const to = slabs === 1 ? path[k + 1] : between(a, b, (k + 1) / slabs);
      add(
        pieces === 1 ? called : `${called}-${k + 1}`,
        capsule(from[0], from[1], to[0], to[1], radius),
        Math.min(from[2], to[2]) - radius,
        Math.max(from[2], to[2]) + radius,
        { kind: 'rod', a: from, b: to, radius },
      );
    }
  };
  along(name, armPath(pose));
  const tail = tailEnd(pose);
  if (tail) along('tail', [elbow, tail]);
  if (elbow[2] > post[2]) add('post', disc(post[0], post[1], radius), post[2], elbow[2]);
  if (head) {
    const { foot, top, sockets } = head;
    if (top[2] > foot[2]) add('platform-post', disc(foot[0], foot[1], HEAD_RADIUS_MM), foot[2], top[2]);
    sockets.forEach(([x, y, z], k) => {
      const shape = capsule(top[0], top[1], x, y, HEAD_RADIUS_MM);
      const solid: Rod = { kind: 'rod', a: [top[0], top[1], z], b: [x, y, z], radius: HEAD_RADIUS_MM };
      add(`platform-${k + 1}`, shape, z - HEAD_RADIUS_MM, z + HEAD_RADIUS_MM, solid);
    });
  }
  return bodies;
}

export interface ArmsLayout {
  readonly poses: readonly MountPose[];
  readonly bodies: readonly Body[];
}

const NOTHING: readonly Body[] = [];
const NO_ARMS: ArmsLayout = { poses: [], bodies: [] };

/** The arms of a piece while it and what holds it stay: made anew only where what is near them has them set otherwise. */
class KeptArms {
  private near: readonly Body[] | null = null;
  private arms: ArmsLayout = NO_ARMS;
  constructor(readonly region: Box | null) {}

  in(near: readonly Body[], make: () => ArmsLayout): ArmsLayout {
    if (this.near !== null && sameItems(this.near, near)) return this.arms;
    const made = make();
    const isSame = this.near !== null && made.poses.every((pose, k) => sameSetting(pose, this.arms.poses[k]));
    this.near = near;
    if (!isSame) this.arms = made;
    return this.arms;
  }
}

/** Of one arm in one place: whether it is set alike. */
const sameSetting = (a: MountPose, b: MountPose): boolean =>
  a.post.every((each, k) => each === b.post[k]) &&
  a.elbow.every((each, k) => each === b.elbow[k]) &&
  a.target.every((each, k) => each === b.target[k]);

/** By piece: immer keeps a piece that a command does not touch. */
const keepArms = keeper<KeptArms>();

/** The piece itself, all that holds it, down to what stands on the deck, and what else is in the sockets of those or sits on them. */
function chainOf(
  setup: Setup,
  inSockets: ReturnType<typeof socketUses>,
  seated: ReturnType<typeof seatedOn>,
  id: string,
): readonly Piece[] {
  const chain: Piece[] = [];
  const add = (next: string) => {
    const piece = own(setup.pieces, next);
    if (piece !== undefined && !chain.includes(piece)) chain.push(piece);
  };
  add(id);
  // Grows as it is walked.
  for (const piece of chain) {
    if (piece.kind !== 'item') continue;
    if (piece.mount) add(carrierPiece(piece.mount.carrier));
    for (const tie of piece.ties ?? []) add(carrierPiece(tie.carrier));
    // A platform's head stands where all its arms reach.
    for (const use of inSockets.get(piece.id) ?? []) add(use.id);
    // A stand is as high as what sits on it needs it.
    for (const on of seated.get(piece.id) ?? []) add(on.id);
  }
  return chain;
}

function armsOf(plan: Plan, item: Item, resolver: MountResolver, assembly: string): ArmsLayout {
  const pose = resolver.pose(item.id);
  const poses = pose ? [pose, ...resolver.ties(item.id)] : resolver.ties(item.id);
  const label = item.name || (gearOf(plan.gear, item.gear)?.name ?? item.id);
  return { poses, bodies: poses.flatMap((each, k) => armBodies(each, pose ? k - 1 : k, assembly, label)) };
}

/**
 * All arms and links of a setup. What did not move since the last call keeps its bodies.
 *
 * An arm is set so that it clears what is near it (reachMounts.ts): the bodies of pieces, and the arms set before it. Arms are set in
 * the order of the setup, but for one in a socket of another: that other comes first.
 */
export function layoutArms(
  plan: Plan,
  setup: Setup,
  racks: Readonly<Record<string, RackLayout>>,
  roots: ReadonlyMap<string, string>,
  pieces: readonly Body[],
): ArmsLayout {
  const laid = new Map<string, ArmsLayout>();
  const round = new Surroundings();
  round.add(pieces);
  const resolver = new MountResolver(plan, setup, racks, round);
  // Ties are broken by the way the kit faces.
  const { xMm, yMm, headingDeg } = kitFront(plan, setup);
  const inSockets = socketUses(setup);
  const seated = seatedOn(setup);
  const lay = (id: string): ArmsLayout => {
    const known = laid.get(id);
    if (known) return known;
    laid.set(id, NO_ARMS); // a cycle ends here
    const item = own(setup.pieces, id);
    if (item?.kind !== 'item' || (item.mount === null && !item.ties?.length)) return NO_ARMS;
    const { mount, ties } = item;
    const holders: MountPose[] = [];
    if (mount?.carrier.on === 'socket') holders.push(...lay(mount.carrier.piece).poses);
    if (ties) for (const { carrier } of ties) if (carrier.on === 'socket') holders.push(...lay(carrier.piece).poses);
    const assembly = roots.get(id) ?? id;
    const from = [plan.gear, assembly, xMm, yMm, headingDeg, chainOf(setup, inSockets, seated, id), holders];
    const kept = keepArms(item, from, () => new KeptArms(resolver.region(id)));
    // What is only tied has nothing to choose.
    const near = mount && kept.region ? resolver.look(id, mount.carrier, kept.region) : NOTHING;
    const arms = kept.in(near, () => armsOf(plan, item, resolver, assembly));
    const [first] = arms.poses; // a mount comes before ties
    resolver.take(id, first?.holds === 'mount' ? first : null);
    laid.set(id, arms);
    round.add(arms.bodies);
    return arms;
  };
  const poses: MountPose[] = [];
  const bodies: Body[] = [];
  for (const id of setup.order) {
    const arms = lay(id);
    for (const pose of arms.poses) poses.push(pose);
    for (const body of arms.bodies) bodies.push(body);
  }
  return { poses, bodies };
}
