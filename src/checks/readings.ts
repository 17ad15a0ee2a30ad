/** The setup's numbers: floor taken, shadow, extents, margins on the riser, and the best pose on it. */

import { hullArea } from '../geometry/hull.ts';
import { smallestRectangle } from '../geometry/rectangle.ts';
import type { Swept } from '../geometry/shapes.ts';
import { extent } from '../geometry/support.ts';
import { unionArea } from '../geometry/union.ts';
import { once } from '../keep.ts';
import type { Body } from '../layout/body.ts';
import { isKit } from '../layout/body.ts';
import type { DeckLayout, Layout } from '../layout/layout.ts';
import type { KitTurns } from '../plan/facing.ts';
import { toDegrees } from '../units.ts';
import { leastMargin } from './riserFit.ts';
import { ANY_TURN_DEG, poseAsk, type RiserPose, riserPoses } from './riserPoses.ts';

/** mm. */
export interface Extent {
  readonly width: number;
  readonly depth: number;
}

/** mm, degrees counter-clockwise from the page's x to the rectangle's width. */
export interface Rectangle extends Extent {
  readonly angle: number;
}

/** Null where there is nothing to measure: an empty setup, or no riser. */
export interface Readings extends FrameReadings {
  /** And the best of those that only shift and do not turn. Where the kit does not fit, what sticks out least. */
  readonly bestRiserPose: RiserPose | null;
  readonly bestRiserShift: RiserPose | null;
}

/** All but the best poses, whose search may take seconds. */
export interface FrameReadings {
  /** m2: the convex hull of what touches the floor. */
  readonly floorHullArea: number | null;
  /** m2: what all bodies together cover from above. */
  readonly shadowArea: number | null;
  /** Of every body of the kit, and of the floor contacts alone. */
  readonly extent: Extent | null;
  readonly smallestRectangle: Rectangle | null;
  readonly floorExtent: Extent | null;
  readonly floorRectangle: Rectangle | null;
  /** mm: the least margin of a floor contact. */
  readonly riserMargin: number | null;
  /** mm: how far anything of the kit, its feet too, reaches out over the deck's edge; 0 when nothing does. */
  readonly overhang: number | null;
  /** How many feet of the kit rest on the deck: tips, T-feet, spurs; pedals and footboards are none. */
  readonly feetOnFloor: number;
}

/** Readings with no best pose among them: those are searched for when they are asked for, on the page in a worker. */
export function frameReadings(readings: Readings): FrameReadings {
  // Named one by one: a copy of all would ask for the poses.
  const { floorHullArea, shadowArea, extent, smallestRectangle, floorExtent, floorRectangle } = readings;
  const { riserMargin, overhang, feetOnFloor } = readings;
  return {
    ...{ floorHullArea, shadowArea, extent, smallestRectangle, floorExtent, floorRectangle },
    ...{ riserMargin, overhang, feetOnFloor },
  };
}

/** A foot on the deck: what of the kit rests there and is neither pedal nor footboard. */
const isFoot = (body: Body): boolean => body.touchesFloor && isKit(body) && body.kind !== 'pedal';

export const feetOf = (bodies: readonly Body[]): number => bodies.reduce((n, body) => n + (isFoot(body) ? 1 : 0), 0);

/** Comes down to the deck, whether or not it bears weight there: a tripod's leg takes the floor under it as well. */
export const isLow = (body: Body): boolean => isKit(body) && body.z0 === 0;

export const MM2_PER_M2 = 1e6;

/** m2: what all that comes down to the deck covers of it, seen from above. Null where nothing does. Asked for, not in every frame. */
export function standingArea({ bodies }: Layout): number | null {
  const low = bodies.filter(isLow);
  return low.length === 0 ? null : unionArea(low.map(({ shape }) => shape)).area / MM2_PER_M2;
}

function extentOf(shapes: readonly Swept[]): Extent | null {
  const box = extent(shapes);
  return box && { width: box.maxX - box.minX, depth: box.maxY - box.minY };
}

function rectangleOf(shapes: readonly Swept[]): Rectangle | null {
  if (shapes.length === 0) return null;
  const { width, depth, angle } = smallestRectangle(shapes);
  return { width, depth, angle: toDegrees(angle) };
}

/**
 * Each reading is worked out when it is first asked for: a frame of a drag asks for none.
 * `allowed`: how far the best pose may turn the kit.
 */
export function readingsOf({ bodies, deck }: Layout, allowed: () => KitTurns = () => ANY_TURN_DEG): Readings {
  const kit = once(() => bodies.filter(isKit));
  const contacts = once(() => kit().filter((body) => body.touchesFloor));
  const shapes = once(() => kit().map((body) => body.shape));
  const floor = once(() => contacts().map((body) => body.shape));
  const poses = once(() => riserPoses(poseAsk(bodies, deck, allowed)));
  const overhang = (over: DeckLayout) => Math.max(0, -leastMargin(over, kit()));
  return lazy({
    floorHullArea: () => (floor().length > 0 ? hullArea(floor()) / MM2_PER_M2 : null),
    shadowArea: () => (shapes().length > 0 ? unionArea(shapes()).area / MM2_PER_M2 : null),
    extent: () => extentOf(shapes()),
    smallestRectangle: () => rectangleOf(shapes()),
    floorExtent: () => extentOf(floor()),
    floorRectangle: () => rectangleOf(floor()),
    riserMargin: () => (deck && floor().length > 0 ? leastMargin(deck, contacts()) : null),
    overhang: () => (deck && kit().length > 0 ? overhang(deck) : null),
    feetOnFloor: () => feetOf(contacts()),
    bestRiserPose: () => poses().pose,
    bestRiserShift: () => poses().shift,
  });
}

/** An object whose fields are worked out, each once, when they are read. */
function lazy<T extends object>(makers: { readonly [K in keyof T]: () => T[K] }): T {
  const made = {} as T;
  for (const name of Object.keys(makers) as (keyof T)[])
    Object.defineProperty(made, name, { get: once(makers[name]), enumerable: true });
  return made;
}
