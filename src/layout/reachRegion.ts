/**
 * Where an arm's end can be: post straight up from its socket, then an arm that tilts. In the upright plane through the
 * socket and the target, with the horizontal distance d to the right and the rise dz up:
 *
 *     d = a cos(tilt),   dz = p + a sin(tilt),   p in post, a in arm, tilt in tilt.
 *
 * For one p the ends fill a polar rectangle S (two arcs, two straight sides); the post slides S up and down. So the
 * distance from a target to all reachable places is the distance between S and the upright segment of the target seen from
 * every p. Both are cores of the geometry module, and nothing is searched or flattened.
 *
 * Units:  mm and radians.
 * Exact:  closed form; within 1e-9 mm for arms within 10 m.
 * Inputs: ranges with low <= high, lengths >= 0, tilts within a quarter turn of level; d >= 0.
 */
import { nearestOnCores } from '../geometry/gap.ts';
import { bentCapsule, capsule, disc, type Swept } from '../geometry/shapes.ts';
import { kept } from '../keep.ts';

export type Range = readonly [number, number];

/** Lengths in mm, tilt in radians above level. */
export interface ArmRange {
  readonly post: Range;
  readonly arm: Range;
  readonly tilt: Range;
}

/** How an arm is set: post and arm in mm, tilt in radians above level. */
export interface ArmSetting {
  readonly postMm: number;
  readonly armMm: number;
  readonly tiltRad: number;
}

const QUARTER = Math.PI / 2;

/** Where the two sides of S cross the upright line at d: -Infinity or Infinity for a side that stands upright itself. */
const sideAt = (tilt: number, d: number): number =>
  tilt >= QUARTER ? Number.POSITIVE_INFINITY : tilt <= -QUARTER ? Number.NEGATIVE_INFINITY : d * Math.tan(tilt);

/** What of a stretch lies between two heights. */
function addWithin(stretches: Range[], from: number, to: number, low: number, high: number): void {
  const bottom = Math.max(from, low);
  const top = Math.min(to, high);
  if (bottom <= top) stretches.push([bottom, top]);
}

/** The heights that S covers on the upright line at d, lowest first: none, one or two stretches. */
function uprightSlice({ arm, tilt }: ArmRange, d: number): Range[] {
  if (d > arm[1]) return [];
  const outer = Math.sqrt((arm[1] - d) * (arm[1] + d));
  const inner = d < arm[0] ? Math.sqrt((arm[0] - d) * (arm[0] + d)) : 0;
  const low = sideAt(tilt[0], d);
  const high = sideAt(tilt[1], d);
  const stretches: Range[] = [];
  addWithin(stretches, -outer, inner > 0 ? -inner : outer, low, high);
  if (inner > 0) addWithin(stretches, inner, outer, low, high);
  return stretches;
}

/** The distances that S covers on the level line at height y: one stretch, or null. */
function levelSlice({ arm, tilt }: ArmRange, y: number): Range | null {
  const height = Math.abs(y);
  if (height > arm[1]) return null;
  let near = height < arm[0] ? Math.sqrt((arm[0] - height) * (arm[0] + height)) : 0;
  let far = Math.sqrt((arm[1] - height) * (arm[1] + height));
  if (y === 0) return tilt[0] <= 0 && tilt[1] >= 0 ? [near, far] : arm[0] === 0 ? [0, 0] : null;
  // Above level the upper side bounds from within and the lower side from without; below level the other way round.
  const [steep, flat] = y > 0 ? [tilt[1], tilt[0]] : [-tilt[0], -tilt[1]];
  if (steep <= 0) return null;
  if (steep < QUARTER) near = Math.max(near, height / Math.tan(steep));
  if (flat > 0) far = Math.min(far, flat >= QUARTER ? 0 : height / Math.tan(flat));
  return near <= far ? [near, far] : null;
}

/** The edge of S as cores: both arcs and both sides; those of no length are points. */
const edgeOf = kept(({ arm, tilt }: ArmRange): readonly Swept[] => {
  const side = (angle: number) =>
    capsule(arm[0] * Math.cos(angle), arm[0] * Math.sin(angle), arm[1] * Math.cos(angle), arm[1] * Math.sin(angle), 0);
  return [
    bentCapsule(0, 0, arm[1], tilt[0], tilt[1] - tilt[0], 0),
    bentCapsule(0, 0, arm[0], tilt[0], tilt[1] - tilt[0], 0),
    side(tilt[0]),
    side(tilt[1]),
  ];
});

/**
 * The posts with which the arm's end can be at (d, dz), lowest first. Empty: it cannot be there. A stretch of no length
 * is one post alone, as at the very edge of the reach.
 */
export function usablePosts(range: ArmRange, d: number, dz: number): Range[] {
  const [p0, p1] = range.post;
  const posts: Range[] = [];
  for (const [from, to] of uprightSlice(range, d)) {
    const low = Math.max(p0, dz - to);
    const high = Math.min(p1, dz - from);
    if (low <= high) posts.push([low, high]);
  }
  return posts.length < 2 ? posts : posts.sort((a, b) => a[0] - b[0]);
}

/** The least change of place that a target out of reach needs, and the setting that then holds it. */
export interface Nearest {
  readonly shortMm: number;
  /** What the target's horizontal distance and rise would have to change by. */
  readonly outMm: number;
  readonly upMm: number;
  readonly setting: ArmSetting;
}

/** For a target that usablePosts() refuses: the nearest place of the reachable ones. */
export function nearestReach(range: ArmRange, d: number, dz: number): Nearest {
  const [p0, p1] = range.post;
  const seen = p0 === p1 ? disc(d, dz - p0, 0) : capsule(d, dz - p1, d, dz - p0, 0);
  let best: Nearest | null = null;
  for (const piece of edgeOf(range)) {
    const { ax, ay, bx, by, distance } = nearestOnCores(seen, piece);
    if (best && best.shortMm <= distance) continue;
    best = {
      shortMm: distance,
      outMm: bx - ax,
      upMm: by - ay,
      setting: { postMm: dz - ay, armMm: Math.hypot(bx, by), tiltRad: Math.atan2(by, bx) },
    };
  }
  return best as Nearest; // edgeOf() has four pieces
}

/** How far a target within reach may still go straight out, in, up and down before the arm no longer holds it. mm. */
export interface Room {
  readonly outMm: number;
  readonly inMm: number;
  readonly upMm: number;
  readonly downMm: number;
}

/** Inputs: a target that usablePosts() accepts. A corner touched from outside gives 0. */
export function roomAround(range: ArmRange, d: number, dz: number): Room {
  const { arm, tilt } = range;
  const [p0, p1] = range.post;
  // Up and down: each stretch of S is lengthened by the post; those that then overlap are one.
  let low = dz;
  let high = dz;
  const stretches = uprightSlice(range, d);
  for (let pass = 0; pass < stretches.length; pass++) {
    for (const [from, to] of stretches) {
      if (from + p0 > high || to + p1 < low) continue;
      low = Math.min(low, from + p0);
      high = Math.max(high, to + p1);
    }
  }
  // Out and in: the part of S within the band of heights that some post brings to dz is in one piece, so its extremes are enough.
  const bandLow = dz - p1;
  const bandHigh = dz - p0;
  let near = d;
  let far = d;
  for (const y of [bandLow, bandHigh]) {
    const slice = levelSlice(range, y);
    if (slice === null) continue;
    near = Math.min(near, slice[0]);
    far = Math.max(far, slice[1]);
  }
  const crossesLevel = tilt[0] <= 0 && tilt[1] >= 0;
  for (const length of arm) {
    for (let corner = 0; corner < 3; corner++) {
      if (corner === 2 && !crossesLevel) continue;
      const angle = corner === 2 ? 0 : tilt[corner];
      const y = length * Math.sin(angle);
      if (y < bandLow || y > bandHigh) continue;
      const distance = length * Math.cos(angle);
      near = Math.min(near, distance);
      far = Math.max(far, distance);
    }
  }
  return { outMm: Math.max(0, far - d), inMm: Math.max(0, d - near), upMm: high - dz, downMm: dz - low };
}
