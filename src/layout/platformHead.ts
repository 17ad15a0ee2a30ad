/**
 * How high a platform's head stands on its post, so that the arms in its sockets reach their pieces.
 *
 * Both posts are upright, so an arm in a platform's socket is an arm whose post may be as long as both together. Each arm leaves
 * one or two stretches of heights; the head stands in the middle of the longest stretch that the platform's own piece allows and
 * that holds the most of the others.
 *
 * Units: mm above the platform's clamp.
 */
import type { ArmGear, SocketArm } from '../gear/kinds.ts';
import { rangeOf } from './reach.ts';
import { type Range, usablePosts } from './reachRegion.ts';

/** A platform's gear does not say how thick its head is. Common practice, no source. */
export const HEAD_RADIUS_MM = 13;

/** Half the thickness of an arm's own tube; of a platform, of its head. */
export const armRadius = (arm: ArmGear): number => (arm.kind === 'platform' ? HEAD_RADIUS_MM : arm.tubeMm / 2);

/** A platform, or a stand's tube: a post that lifts what arms start from. */
type Head = { readonly postMm: Range };

/** The arm with the platform's post under its own. */
export function onPlatform<A extends SocketArm>(platform: Head, arm: A): A {
  const postMm: [number, number] = [platform.postMm[0] + arm.postMm[0], platform.postMm[1] + arm.postMm[1]];
  return { ...arm, postMm };
}

/** Heights of the head with which both posts together are as long as `posts`. */
function headsFor(platform: Head, arm: SocketArm, posts: readonly Range[]): Range[] {
  const [low, high] = platform.postMm;
  return posts
    .map(([from, to]): Range => [Math.max(low, from - arm.postMm[1]), Math.min(high, to - arm.postMm[0])])
    .map(([from, to]): Range => (from <= to ? [from, to] : [to, from])); // apart by rounding alone
}

/**
 * Heights of the head with which an arm reaches a place `horizontalMm` from its socket and `riseMm` above the platform's
 * clamp. `nearestPostMm`: the sum of both posts that comes nearest, for a place that none reaches; without it, none.
 */
export function headRanges(
  platform: Head,
  arm: SocketArm,
  horizontalMm: number,
  riseMm: number,
  nearestPostMm: number | null,
): Range[] {
  const posts = usablePosts(rangeOf(onPlatform(platform, arm)), horizontalMm, riseMm);
  if (posts.length === 0 && nearestPostMm !== null) posts.push([nearestPostMm, nearestPostMm]);
  return headsFor(platform, arm, posts);
}

const holds = (ranges: readonly Range[], height: number): boolean =>
  ranges.some(([from, to]) => from <= height && height <= to);

/** Inputs: `own` is not empty. */
export function headHeight(own: readonly Range[], others: readonly (readonly Range[])[]): number {
  const cuts = [...new Set([...own, ...others.flat()].flat())].sort((a, b) => a - b);
  let best = { count: -1, length: 0, height: own[0][0] };
  const offer = (from: number, to: number) => {
    const height = (from + to) / 2;
    if (!holds(own, height)) return;
    const count = others.reduce((sum, ranges) => sum + Number(holds(ranges, height)), 0);
    if (count > best.count || (count === best.count && to - from > best.length))
      best = { count, length: to - from, height };
  };
  cuts.forEach((cut, k) => {
    offer(cut, cut);
    if (k > 0) offer(cuts[k - 1], cut);
  });
  return best.height;
}
