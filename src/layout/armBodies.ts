/**
 * Arms and links as bodies: what a mount takes of the air, and what its hardware weighs.
 *
 * A post is a disc over its height; an arm is a capsule, or several in line where it rises, each with the height interval of
 * its two ends: a bound from outside. The mass of arm and clamp is on the arm's first body: the clamp at its tube, the arm half-way between post and piece
 * (their own centres are nobody's published numbers; half-way is exact for an even tube).
 */
import { gearOf, massKgOf } from '../gear/catalogue.ts';
import { capsule, disc } from '../geometry/shapes.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { carrierPiece } from './assemblies.ts';
import type { Body } from './body.ts';
import type { RackLayout } from './racks.ts';
import { type MountPose, MountResolver, type Point3 } from './reachMounts.ts';

/** An arm whose gear does not say its tube: a platform's head. Common practice, no source. */
const HEAD_RADIUS_MM = 13;

/** A rising arm is cut into stretches that rise no more than this, so that each has a height interval of its own. */
const SLAB_MM = 60;
const MOST_SLABS = 12;

/** Hardware's mass and its centre, kg and mm; null if any of it is unmeasured. */
export function hardwareMass(pose: MountPose): { massKg: number; at: Point3 } | null {
  const armKg = massKgOf(pose.arm);
  const clampKg = pose.clamp ? massKgOf(pose.clamp) : 0;
  if (armKg === null || clampKg === null) return null;
  const massKg = armKg + clampKg;
  const { clampAt, post, target } = pose;
  const share = massKg > 0 ? armKg / massKg : 0;
  const at = [0, 1, 2].map((i) => clampAt[i] * (1 - share) + ((post[i] + target[i]) / 2) * share);
  return { massKg, at: [at[0], at[1], at[2]] };
}

/** `assembly`: of the piece that is held; `label`: what findings call it. */
export function armBodies(pose: MountPose, index: number, assembly: string, label: string): Body[] {
  const { piece, arm, post, elbow, target } = pose;
  const radius = arm.kind === 'platform' ? HEAD_RADIUS_MM : arm.tubeMm / 2;
  const link = pose.holds === 'tie';
  const part = link ? `link${index + 1}` : 'arm';
  const hardware = hardwareMass(pose);
  const common = { piece, label, assembly, kind: link ? 'link' : 'arm', touchesFloor: false } as const;
  // A bent link rises over what lies between its ends; how its bow runs is not known, so it is one bound.
  const over = arm.kind === 'link' ? arm.passHeightMm : 0;
  const slabs = over > 0 ? 1 : Math.min(MOST_SLABS, Math.max(1, Math.ceil(Math.abs(target[2] - elbow[2]) / SLAB_MM)));
  const along = (share: number) => [0, 1, 2].map((i) => elbow[i] + (target[i] - elbow[i]) * share);
  const bodies: Body[] = [];
  for (let k = 0; k < slabs; k++) {
    const from = along(k / slabs);
    const to = along((k + 1) / slabs);
    const named = slabs === 1 ? part : `${part}-${k + 1}`;
    bodies.push({
      ...common,
      id: `${piece}/${named}`,
      part: named,
      z0: Math.max(0, Math.min(from[2], to[2]) - radius),
      z1: Math.max(0, Math.max(from[2], to[2], over) + radius),
      shape: capsule(from[0], from[1], to[0], to[1], radius),
      massKg: k > 0 ? 0 : (hardware?.massKg ?? null),
      massCentre: k > 0 ? null : (hardware?.at ?? null),
    });
  }
  if (elbow[2] > post[2])
    bodies.push({
      ...common,
      id: `${piece}/post`,
      part: 'post',
      z0: Math.max(0, post[2]),
      z1: Math.max(0, elbow[2]),
      shape: disc(post[0], post[1], radius),
      massKg: 0,
      massCentre: null,
    });
  return bodies;
}

export interface ArmsLayout {
  readonly poses: readonly MountPose[];
  readonly bodies: readonly Body[];
}

interface Kept {
  readonly gear: Plan['gear'];
  /** The piece itself and all that holds it, down to what stands on the deck. */
  readonly chain: readonly object[];
  readonly assembly: string;
  readonly poses: readonly MountPose[];
  readonly bodies: readonly Body[];
}

/** By piece: immer keeps a piece that a command does not touch. */
const kept = new WeakMap<object, Kept>();

function chainOf(setup: Setup, id: string): object[] {
  const chain: object[] = [];
  const waiting = [id];
  const seen = new Set<string>();
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    if (seen.has(at) || !Object.hasOwn(setup.pieces, at)) continue;
    seen.add(at);
    const piece = setup.pieces[at];
    chain.push(piece);
    if (piece.kind !== 'item') continue;
    if (piece.mount) waiting.push(carrierPiece(piece.mount.carrier));
    for (const tie of piece.ties ?? []) waiting.push(carrierPiece(tie.carrier));
  }
  return chain;
}

/** All arms and links of a setup. What did not move since the last call keeps its bodies. */
export function layoutArms(
  plan: Plan,
  setup: Setup,
  racks: Readonly<Record<string, RackLayout>>,
  roots: ReadonlyMap<string, string>,
): ArmsLayout {
  const poses: MountPose[] = [];
  const bodies: Body[] = [];
  const resolver = new MountResolver(plan, setup, racks);
  for (const id of setup.order) {
    const item = Object.hasOwn(setup.pieces, id) ? setup.pieces[id] : undefined;
    if (item?.kind !== 'item' || (item.mount === null && !item.ties?.length)) continue;
    const assembly = roots.get(id) ?? id;
    const chain = chainOf(setup, id);
    let made = kept.get(item);
    if (
      !made ||
      made.gear !== plan.gear ||
      made.assembly !== assembly ||
      made.chain.length !== chain.length ||
      made.chain.some((piece, k) => piece !== chain[k])
    ) {
      const own = resolver.pose(id);
      const all = own ? [own, ...resolver.ties(id)] : resolver.ties(id);
      const label = item.name || (gearOf(plan.gear, item.gear)?.name ?? id);
      made = {
        gear: plan.gear,
        chain,
        assembly,
        poses: all,
        bodies: all.flatMap((pose, k) => armBodies(pose, own ? k - 1 : k, assembly, label)),
      };
      kept.set(item, made);
    }
    poses.push(...made.poses);
    bodies.push(...made.bodies);
  }
  return { poses, bodies };
}
