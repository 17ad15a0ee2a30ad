/**
 * An arm, link or platform as straight stretches in space, from its root outwards: so that what is near its joints can be left out
 * where it is held against what it is joined to.
 *
 * The root is where its clamp, socket or stand has hold of it; the end is where it has hold of its piece.
 */
import { between } from '../geometry/solids.ts';
import { armPath, tailEnd } from './armBodies.ts';
import { armRadius, HEAD_RADIUS_MM } from './platformHead.ts';
import type { MountPose, Point3 } from './reachMounts.ts';

export interface Stretch {
  readonly part: 'post' | 'arm' | 'tail' | 'platform-post' | 'platform';
  readonly from: Point3;
  readonly to: Point3;
  readonly radius: number;
  /** Length between the root and `from`. */
  readonly rootMm: number;
}

/** Math.hypot() makes a list of what it is given, and this is asked for each arm of a frame. */
function lengthOf(a: Point3, b: Point3): number {
  const x = b[0] - a[0];
  const y = b[1] - a[1];
  const z = b[2] - a[2];
  return Math.sqrt(x * x + y * y + z * z);
}

export function stretchesOf(pose: MountPose): Stretch[] {
  const { arm, post, elbow, head } = pose;
  const radius = armRadius(arm);
  const all: Stretch[] = [];
  const add = (part: Stretch['part'], from: Point3, to: Point3, thick: number, rootMm: number): number => {
    const length = lengthOf(from, to);
    // A post of no length is still where the arm begins.
    if (length > 0 || part === 'post') all.push({ part, from, to, radius: thick, rootMm });
    return rootMm + length;
  };
  let root = 0;
  if (head) {
    const top = add('platform-post', head.foot, head.top, HEAD_RADIUS_MM, 0);
    for (const socket of head.sockets) add('platform', head.top, socket, HEAD_RADIUS_MM, top);
    root = top + lengthOf(head.top, head.sockets[head.socket]);
  }
  root = add('post', post, elbow, radius, root);
  const tail = tailEnd(pose);
  if (tail) add('tail', elbow, tail, radius, root);
  const path = armPath(pose);
  for (let k = 1; k < path.length; k++) root = add('arm', path[k - 1], path[k], radius, root);
  return all;
}

/** What lies farther than `mm` from the root. */
export function beyondRoot(stretches: readonly Stretch[], mm: number): Stretch[] {
  const beyond: Stretch[] = [];
  for (const each of stretches) {
    const within = mm - each.rootMm;
    if (within <= 0) {
      beyond.push(each);
      continue;
    }
    const length = lengthOf(each.from, each.to);
    if (within >= length) continue;
    const { part, from, to, radius } = each;
    beyond.push({ part, from: between(from, to, within / length), to, radius, rootMm: mm });
  }
  return beyond;
}

/** Arms without their last `mm`; posts and platforms whole. */
export function beforeEnd(stretches: readonly Stretch[], mm: number): Stretch[] {
  let end = 0;
  for (const { part, rootMm, from, to } of stretches)
    if (part === 'arm') end = Math.max(end, rootMm + lengthOf(from, to));
  end -= mm;
  const before: Stretch[] = [];
  for (const each of stretches) {
    const length = lengthOf(each.from, each.to);
    const left = end - each.rootMm;
    if (each.part !== 'arm' || left >= length) before.push(each);
    else if (left > 0) {
      const { part, from, to, radius, rootMm } = each;
      before.push({ part, from, to: between(from, to, left / length), radius, rootMm });
    }
  }
  return before;
}
