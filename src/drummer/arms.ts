/**
 * Arms and sticks: where each piece is struck, how far that is from the shoulder, and how far hands get.
 *
 * A drum is struck on its head, a crash on its edge, a ride on its bow and bell, hi-hats on edge and bow. The spot is the one that lies
 * towards the shoulder that plays it. The hi-hat and the ride are played with the leading hand (an open-handed drummer plays the hi-hat
 * with the hand of its own side), all else with the nearer one.
 *
 * Zones, as ergonomics has them: normal, what the forearm sweeps with the upper arm hanging; extended, what the whole arm reaches from
 * the shoulder (Barnes; Squires; wording after a published guide to workstations). At a height, the reach along a level line is
 * sqrt(arm^2 - (shoulder height - height)^2) (Drillis and Contini, as tabulated). The stick counts in both. What lies beyond is
 * reached by leaning from the hips.
 *
 * Units: mm, radians.
 */
import { gearOf } from '../gear/catalogue.ts';
import { heightMmIn } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import type { Point3 } from '../geometry/solids.ts';
import { headNormal } from '../plan/items.ts';
import type { Item, Plan } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import { type Figure, leadingHand } from './figure.ts';
import type { Side } from './sizes.ts';
import { otherSide } from './stations.ts';

export type Spot = 'head' | 'edge' | 'bow' | 'bell';
export type Zone = 'normal' | 'extended' | 'leaning' | 'beyond';

export interface SpotReach {
  readonly piece: string;
  readonly spot: Spot;
  readonly hand: Side;
  readonly at: Point3;
  /** From the shoulder, upright. */
  readonly distance: number;
  /** Of the arm and the stick. */
  readonly reach: number;
  readonly zone: Zone;
  /** How far the trunk leans for it; null: it is beyond any lean. */
  readonly leanRad: number | null;
}

/** A stick is held a third from its butt (common practice, no source). */
const BEYOND_GRIP = 2 / 3;
/** Where on its radius a head and a bow are struck, from the middle. Common practice, no source. */
const ON_HEAD = 1 / 3;
const ON_BOW = 2 / 3;
/** No lean beyond this is called one. */
const MOST_LEAN_RAD = toRadians(45);

const SPOTS: Readonly<Record<Extract<Gear, { kind: 'cymbal' }>['use'], readonly Spot[]>> = {
  hiHat: ['edge', 'bow'],
  ride: ['bow', 'bell'],
  crash: ['edge'],
  splash: ['edge'],
  china: ['edge'],
  stack: ['edge'],
};

const apart = (a: Point3, b: Point3) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** Of the whole arm with its stick, and of the forearm with it. */
function lengthsOf({ sitter: { sizes } }: Figure) {
  const stick = sizes.stickMm * BEYOND_GRIP;
  return {
    arm: sizes.armMm + stick,
    forearm: sizes.forearmMm + stick,
    upper: Math.max(0, sizes.armMm - sizes.forearmMm),
  };
}

/** The radius of a ball at a height above or below its middle; null where it does not get there. */
const levelAt = (radius: number, rise: number): number | null =>
  Math.abs(rise) < radius ? Math.sqrt(radius ** 2 - rise ** 2) : null;

/** How far each hand's stick gets from the shoulder's plumb line at a height: normal and at most. */
export function zonesAt(figure: Figure, zMm: number) {
  const { arm, forearm, upper } = lengthsOf(figure);
  return (['left', 'right'] as const).map((side) => {
    const [x, y, z] = figure.shoulders[side];
    return { x, y, normal: levelAt(forearm, z - upper - zMm), most: levelAt(arm, z - zMm) };
  });
}

/** The spot of a plane at right angles to `n` that lies towards a shoulder, `radius` from its middle. */
function towards(n: Point3, middle: Point3, radius: number, [sx, sy, sz]: Point3): Point3 {
  const way = [sx - middle[0], sy - middle[1], sz - middle[2]];
  const along = way[0] * n[0] + way[1] * n[1] + way[2] * n[2];
  const flat = way.map((part, axis) => part - along * n[axis]);
  const size = Math.hypot(...flat);
  const share = size > 0 ? radius / size : 0;
  return [middle[0] + share * flat[0], middle[1] + share * flat[1], middle[2] + share * flat[2]];
}

function spotAt(item: Item, gear: Extract<Gear, { kind: 'drum' | 'cymbal' }>, spot: Spot, shoulder: Point3): Point3 {
  const { xMm, yMm } = item.place;
  const up = headNormal(item);
  const middle: Point3 = [xMm, yMm, heightMmIn(item.place, gear) ?? 0];
  const radius = gear.diameterMm / 2;
  if (spot === 'bell' && gear.kind === 'cymbal') {
    const high = gear.profileMm;
    return [middle[0] + high * up[0], middle[1] + high * up[1], middle[2] + high * up[2]];
  }
  return towards(up, middle, radius * (spot === 'head' ? ON_HEAD : spot === 'bow' ? ON_BOW : 1), shoulder);
}

/** A shoulder after the trunk has leaned from the hips towards a place. */
function leaned({ seat, hips }: Figure, [x, y, z]: Point3, to: Point3, lean: number): Point3 {
  const hipZ = hips.left[2];
  const [ux, uy] = [to[0] - seat[0], to[1] - seat[1]];
  const size = Math.hypot(ux, uy);
  if (size === 0) return [x, y, z];
  const along = ((x - seat[0]) * ux + (y - seat[1]) * uy) / size;
  const moved = along * Math.cos(lean) + (z - hipZ) * Math.sin(lean) - along;
  const up = (z - hipZ) * Math.cos(lean) - along * Math.sin(lean);
  return [x + (moved * ux) / size, y + (moved * uy) / size, hipZ + up];
}

/** The least lean that brings a spot within an arm's reach, to a hundredth of a degree. */
function leanFor(figure: Figure, shoulder: Point3, at: Point3, reach: number): number | null {
  const gets = (lean: number) => apart(leaned(figure, shoulder, at, lean), at) <= reach;
  if (gets(0)) return 0;
  if (!gets(MOST_LEAN_RAD)) return null;
  let [low, high] = [0, MOST_LEAN_RAD];
  while (high - low > 1e-4) {
    const mid = (low + high) / 2;
    if (gets(mid)) high = mid;
    else low = mid;
  }
  return high;
}

/** Which hand plays it; null: whichever is nearer. */
function handFor(figure: Figure, gear: Gear): Side | null {
  if (gear.kind !== 'cymbal' || (gear.use !== 'hiHat' && gear.use !== 'ride')) return null;
  const leads = leadingHand(figure);
  if (gear.use === 'ride' || leads === null || !figure.sitter.drummer?.openHanded) return leads;
  return otherSide(leads);
}

/** Nearer than this to one another two distances are one, and the leading hand plays, mm. */
const SAME_MM = 1e-6;

/** Every spot of a piece that is struck with sticks; none of any other. */
export function spotsOf(plan: Plan, figure: Figure, item: Item): SpotReach[] {
  const gear = gearOf(plan.gear, item.gear);
  if (gear?.kind !== 'drum' && gear?.kind !== 'cymbal') return [];
  const { arm, forearm, upper } = lengthsOf(figure);
  const own = handFor(figure, gear);
  const spots = gear.kind === 'drum' ? (['head'] as const) : SPOTS[gear.use];
  return spots.map((spot): SpotReach => {
    const of = (hand: Side) => {
      const shoulder = figure.shoulders[hand];
      const at = spotAt(item, gear, spot, shoulder);
      return { hand, shoulder, at, distance: apart(shoulder, at) };
    };
    const [left, right] = [of('left'), of('right')];
    const more = left.distance - right.distance;
    const nearer: Side = Math.abs(more) < SAME_MM ? (leadingHand(figure) ?? 'right') : more < 0 ? 'left' : 'right';
    const best = (own ?? nearer) === 'left' ? left : right;
    const { hand, shoulder, at, distance } = best;
    const leanRad = leanFor(figure, shoulder, at, arm);
    const elbow: Point3 = [shoulder[0], shoulder[1], shoulder[2] - upper];
    const zone: Zone =
      apart(elbow, at) <= forearm ? 'normal' : distance <= arm ? 'extended' : leanRad === null ? 'beyond' : 'leaning';
    return { piece: item.id, spot, hand, at, distance, reach: arm, zone, leanRad };
  });
}
