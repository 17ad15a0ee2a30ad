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

const lengthOf = (a: Point3, b: Point3): number => Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);

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
  return stretches.flatMap((each) => {
    const within = mm - each.rootMm;
    const length = lengthOf(each.from, each.to);
    if (within <= 0) return [each];
    if (within >= length) return [];
    const { part, from, to, radius } = each;
    return [{ part, from: between(from, to, within / length), to, radius, rootMm: mm }];
  });
}

/** Arms without their last `mm`; posts and platforms whole. */
export function beforeEnd(stretches: readonly Stretch[], mm: number): Stretch[] {
  const arms = stretches.filter(({ part }) => part === 'arm');
  const end = arms.reduce((most, { rootMm, from, to }) => Math.max(most, rootMm + lengthOf(from, to)), 0) - mm;
  return stretches.flatMap((each) => {
    if (each.part !== 'arm') return [each];
    const length = lengthOf(each.from, each.to);
    const left = end - each.rootMm;
    if (left >= length) return [each];
    const { part, from, to, radius, rootMm } = each;
    return left <= 0 ? [] : [{ part, from, to: between(from, to, left / length), radius, rootMm }];
  });
}
