/**
 * What is joined, and where: an arm to the tube, socket, stand or bass drum that has hold of it, and to the piece that it holds.
 *
 * Only these may touch each other, and only about the joint: ROOT_MM of an arm from its root against what it stands on, a link's
 * END_MM against the stand that it ties, and what takes hold of a drum or cymbal (layout/ownSolid.ts) against that piece. The rest of an
 * arm counts against them, and all of it against the other parts of the rack that carries it: jointPairs() finds where it runs into
 * them. They are one, and cannot come nearer by swinging, so no distance is wanted: only what runs into each other is listed.
 *
 * Bounded from outside in plan, with the height interval of every SLAB_MM that it rises; against its own drum or cymbal exact in space.
 */
import { gapValue } from '../geometry/gap.ts';
import { capsule } from '../geometry/shapes.ts';
import { boxInto, openBox } from '../geometry/support.ts';
import { keeper } from '../keep.ts';
import { bodiesOf } from '../layout/bodiesOf.ts';
import { type Body, isArmBody } from '../layout/body.ts';
import { carries, isJoint } from '../layout/joined.ts';
import type { Layout } from '../layout/layout.ts';
import { solidRoom } from '../layout/ownSolid.ts';
import type { MountPose } from '../layout/reachMounts.ts';
import { beforeEnd, beyondRoot, type Stretch, stretchesOf } from '../layout/stretches.ts';
import { carrierPiece } from '../plan/carriers.ts';
import type { PairReading } from './pair.ts';
import { isBelow } from './tolerance.ts';

/** A clamp's or a socket's own length along the arm, and its grip. Common practice, no source. */
const ROOT_MM = 80;
/** A link's clamp on the stand that it ties. */
const END_MM = 80;
/** Rising stretches are cut into pieces that rise no more than this. */
const SLAB_MM = 30;

/** The bodies of one mount or tie: `link` and its number for a tie. */
const ofPose = (bodies: readonly Body[], pose: MountPose, tie: number): readonly Body[] =>
  pose.holds === 'mount'
    ? bodies.filter(({ kind }) => kind === 'arm')
    : bodies.filter(({ kind, part }) => kind === 'link' && (part === `link${tie}` || part.startsWith(`link${tie}-`)));

const PART_NAMES: { readonly [P in Stretch['part']]: (part: string) => boolean } = {
  post: (part) => part === 'post',
  arm: (part) => part.startsWith('arm') || part.startsWith('link'),
  tail: (part) => part.startsWith('tail'),
  'platform-post': (part) => part === 'platform-post',
  platform: (part) => /^platform-\d/.test(part),
};

/** The body that a stretch belongs to, as findings name it. */
const bodyOf = (own: readonly Body[], stretch: Stretch): Body =>
  own.find(({ part }) => PART_NAMES[stretch.part](part)) ?? own[0];

/** Lent to one question at a time: the box of a stretch, and that of a body it is held against. */
const whole = openBox();
const box = openBox();

/** Whether a stretch, as tall and as wide as it is at all, reaches into a body's box and heights: what does not, it cannot run into. */
function mayMeet({ from, to, radius }: Stretch, thick: number, body: Body): boolean {
  if (Math.min(from[2], to[2]) - thick >= body.z1 || Math.max(from[2], to[2]) + thick <= body.z0) return false;
  const { minX, minY, maxX, maxY } = boxInto(body.shape, box);
  return (
    whole.minX - radius < maxX && minX < whole.maxX + radius && whole.minY - radius < maxY && minY < whole.maxY + radius
  );
}

/** The first body that a stretch runs into, heights considered. */
function runsInto(stretch: Stretch, others: readonly Body[]): { body: Body; gap: number } | null {
  const { from, to, radius } = stretch;
  // An upright has one outline at every height, and ends flat; an arm is as thick in height as in plan.
  const isUpright = from[0] === to[0] && from[1] === to[1];
  const thick = isUpright ? 0 : radius;
  whole.minX = Math.min(from[0], to[0]);
  whole.minY = Math.min(from[1], to[1]);
  whole.maxX = Math.max(from[0], to[0]);
  whole.maxY = Math.max(from[1], to[1]);
  let near: Body[] | null = null;
  for (const body of others) {
    if (!mayMeet(stretch, thick, body)) continue;
    if (near === null) near = [body];
    else near.push(body);
  }
  if (near === null) return null;
  const count = isUpright ? 1 : Math.max(1, Math.ceil(Math.abs(to[2] - from[2]) / SLAB_MM));
  const at = (k: number, axis: 0 | 1 | 2) => from[axis] + ((to[axis] - from[axis]) * k) / count;
  for (let k = 0; k < count; k++) {
    const shape = capsule(at(k, 0), at(k, 1), at(k + 1, 0), at(k + 1, 1), radius);
    const [za, zb] = [at(k, 2), at(k + 1, 2)];
    for (const body of near) {
      if (Math.min(za, zb) - thick >= body.z1 || Math.max(za, zb) + thick <= body.z0) continue;
      const gap = gapValue(shape, body.shape);
      if (isBelow(gap, 0)) return { body, gap };
    }
  }
  return null;
}

interface Hit {
  readonly stretch: Stretch;
  readonly body: Body;
  readonly gap: number;
}

function hitsOf(stretches: readonly Stretch[], others: readonly Body[]): Hit[] {
  const hits: Hit[] = [];
  if (others.length === 0) return hits;
  for (const stretch of stretches) {
    const hit = runsInto(stretch, others);
    if (hit) hits.push({ stretch, body: hit.body, gap: hit.gap });
  }
  return hits;
}

/** Where an arm runs into the bodies that carry it, away from its joint. */
export function carrierHits({ carrier }: MountPose, stretches: readonly Stretch[], carrying: readonly Body[]): Hit[] {
  const joint = carrying.filter((body) => isJoint(carrier, body));
  const others = carrying.filter((body) => !isJoint(carrier, body));
  return [...hitsOf(beyondRoot(stretches, ROOT_MM), joint), ...hitsOf(stretches, others)];
}

/** The stretches of an arm that run through its own drum or cymbal, and how far they are within. */
export function ownHits({ own }: MountPose, stretches: readonly Stretch[]): Omit<Hit, 'body'>[] {
  if (own === null) return [];
  return beforeEnd(stretches, own.holdMm)
    .map((stretch) => ({ stretch, gap: solidRoom(own, stretch.from, stretch.to, stretch.radius) }))
    .filter(({ gap }) => isBelow(gap, 0));
}

function pairsOf(
  pose: MountPose,
  arms: readonly Body[],
  carrying: readonly Body[],
  held: readonly Body[],
): PairReading[] {
  const pairs: PairReading[] = [];
  const add = ({ stretch, body, gap }: Hit) => {
    const a = bodyOf(arms, stretch);
    if (!pairs.some((pair) => pair.a === a && pair.b === body))
      pairs.push({ a, b: body, gap, required: 0, space: null, joined: true });
  };
  const all = stretchesOf(pose);
  for (const hit of carrierHits(pose, all, carrying)) add(hit);
  const piece = held.find(({ kind }) => kind !== 'spur');
  if (piece) for (const hit of ownHits(pose, all)) add({ ...hit, body: piece });
  if (pose.holds === 'tie') for (const hit of hitsOf(beforeEnd(all, END_MM), held)) add(hit);
  return pairs;
}

const keepPairs = keeper<readonly PairReading[]>();

/** Where arms and links run into what they are joined to, away from the joint. */
export function jointPairs({ bodies, mounts }: Layout): PairReading[] {
  const found: PairReading[] = [];
  let tie = 0;
  let before: string | null = null;
  for (const pose of mounts) {
    if (pose.piece !== before) tie = 0;
    before = pose.piece;
    if (pose.holds === 'tie') tie++;
    const own = bodiesOf(bodies, pose.piece);
    const carrying = bodiesOf(bodies, carrierPiece(pose.carrier));
    const pairs = keepPairs(pose, [own, carrying], () =>
      pairsOf(
        pose,
        ofPose(own, pose, tie),
        carrying.filter((body) => carries(pose.carrier, body)),
        own.filter((body) => !isArmBody(body)),
      ),
    );
    for (const pair of pairs) found.push(pair);
  }
  return found;
}
