/**
 * How much room an arm has where it is set: from its own drum or cymbal, and from whatever else is near it.
 *
 * The choice among settings (reachMounts.ts) asks this of one setting after another and takes the first that has ENOUGH_MM; more room
 * than that counts for nothing. So most arms are asked about once. Its own piece is asked first, exactly and in space (ownSolid.ts); then the
 * bodies near it, in plan and by height, as the check of clearances has it.
 *
 * Left out: the joint itself, and what is on the stage beside the kit. Parts of the rack that carries it need no distance, only that
 * it does not run into them: they cannot swing.
 */
import type { ArmGear } from '../gear/kinds.ts';
import { gapValue } from '../geometry/gap.ts';
import { capsule, disc, type Swept } from '../geometry/shapes.ts';
import { between } from '../geometry/solids.ts';
import { type Box, boxOf } from '../geometry/support.ts';
import { kept } from '../keep.ts';
import type { Carrier } from '../plan/schema.ts';
import { type Body, isKit } from './body.ts';
import type { Point3 } from './holdPoint.ts';
import { carries, isJoint } from './joined.ts';
import { type OwnSolid, solidRoom } from './ownSolid.ts';
import { armRadius } from './platformHead.ts';

/** A hand's breadth less a finger: what cymbals want from each other (checks/limits.ts), so that no check calls it tight. Our own default. */
export const ENOUGH_MM = 25;
/** From its own piece, which it cannot swing against. Our own default. */
const OWN_ENOUGH_MM = 15;
/** An arm through its own piece is worse than one that runs into anything else: that may be moved. More than any gap is below 0. */
const OWN_FIRST_MM = 10_000;
/** Heights farther apart than this do not meet (checks/limits.ts). */
const HEIGHT_MM = 10;
/** A rising arm is looked at in stretches that rise no more than this. */
const SLAB_MM = 60;

/** An arm as it is set: a post, and straight on from there. */
interface SetArm {
  readonly arm: ArmGear;
  readonly post: Point3;
  readonly elbow: Point3;
  readonly target: Point3;
  readonly own: OwnSolid | null;
  readonly carrier: Carrier;
}

/** Side of a square of the grid: about the reach of an arm. */
const CELL_MM = 600;
/** What lies over more squares than this is looked at every time instead. */
const MOST_CELLS = 64;
/** Squares in a row: those within 19 km have a number of their own. */
const ROW = 65_536;

/** The numbers of the squares under a box; null for one that lies over too many. */
function cellsUnder({ minX, minY, maxX, maxY }: Box): readonly number[] | null {
  const [left, right] = [Math.floor(minX / CELL_MM), Math.floor(maxX / CELL_MM)];
  const [low, high] = [Math.floor(minY / CELL_MM), Math.floor(maxY / CELL_MM)];
  if ((right - left + 1) * (high - low + 1) > MOST_CELLS) return null;
  const cells: number[] = [];
  for (let x = left; x <= right; x++) for (let y = low; y <= high; y++) cells.push(x * ROW + y);
  return cells;
}

/** Null for people and things beside the kit: they walk about. */
const placeOf = kept((body: Body) => {
  if (!isKit(body)) return null;
  const box = boxOf(body.shape);
  return { box, cells: cellsUnder(box) };
});

const NONE: readonly number[] = [];

/** An arm keeps clear of so many bodies at most: several times what is about any arm of a crowded kit. */
const MOST_NEAR = 256;

/** Bodies in a grid, so that each arm of a frame looks at those about it and not at all of a large stage. */
export class Surroundings {
  private readonly bodies: Body[] = [];
  private readonly boxes: Box[] = [];
  private readonly cells = new Map<number, number[]>();
  private readonly large: number[] = [];
  /** For each body the question it was last looked at in: one that lies over several squares is found once. */
  private readonly lookedAt: number[] = [];
  private questions = 0;

  add(bodies: readonly Body[]): void {
    for (const body of bodies) {
      const place = placeOf(body);
      if (place === null) continue;
      const index = this.bodies.length;
      this.bodies.push(body);
      this.boxes.push(place.box);
      this.lookedAt.push(0);
      if (place.cells === null) this.large.push(index);
      for (const key of place.cells ?? NONE) {
        const cell = this.cells.get(key);
        if (cell) cell.push(index);
        else this.cells.set(key, [index]);
      }
    }
  }

  /**
   * What an arm of this piece could come near to, whatever its setting, in the order added: its post and arm stay over the box in plan.
   * At most MOST_NEAR: where more lies in a heap no setting is clear of it, and the check of clearances says what the arm runs into.
   */
  near(piece: string, carrier: Carrier, box: Box): Body[] {
    const { bodies, boxes, large, lookedAt } = this;
    const question = ++this.questions;
    const found: number[] = [];
    const look = (k: number) => {
      if (lookedAt[k] === question) return;
      lookedAt[k] = question;
      const { minX, minY, maxX, maxY } = boxes[k];
      if (minX > box.maxX || maxX < box.minX || minY > box.maxY || maxY < box.minY) return;
      const body = bodies[k];
      if (body.piece === piece || (carries(carrier, body) && isJoint(carrier, body))) return;
      found.push(k);
    };
    const cells = cellsUnder(box);
    let count = large.length;
    for (const key of cells ?? NONE) count += this.cells.get(key)?.length ?? 0;
    // Where most lies about it, one after another, so that the first MOST_NEAR are enough.
    if (cells === null || count > bodies.length / 2)
      for (let k = 0; k < bodies.length && found.length < MOST_NEAR; k++) look(k);
    else {
      for (const key of cells) for (const k of this.cells.get(key) ?? NONE) look(k);
      for (const k of large) look(k);
      inOrder(found);
      if (found.length > MOST_NEAR) found.length = MOST_NEAR;
    }
    return found.map((k) => bodies[k]);
  }
}

/** A short list, sorted where it stands: the library's way makes another for each question of a frame. */
function inOrder(list: number[]): void {
  for (let k = 1; k < list.length; k++) {
    const one = list[k];
    let at = k;
    for (; at > 0 && list[at - 1] > one; at--) list[at] = list[at - 1];
    list[at] = one;
  }
}

/** Air between an arm and its own drum or cymbal, without what takes hold of it. mm; below 0: it runs through it. */
function ownRoom(solid: OwnSolid, { post, elbow, target }: SetArm, radius: number): number {
  const upright = solidRoom(solid, post, elbow, radius);
  const length = Math.hypot(target[0] - elbow[0], target[1] - elbow[1], target[2] - elbow[2]);
  if (length <= solid.holdMm) return upright;
  const share = 1 - solid.holdMm / length;
  return Math.min(upright, solidRoom(solid, elbow, between(elbow, target, share), radius));
}

/** Gap of a body to a shape that is between two heights; ENOUGH_MM where they do not meet. */
function gapAt(body: Body, shape: Swept, low: number, high: number): number {
  if (low - body.z1 >= HEIGHT_MM || body.z0 - high >= HEIGHT_MM) return ENOUGH_MM;
  return gapValue(shape, body.shape);
}

function armGap(body: Body, whole: Swept, { elbow, target }: SetArm, radius: number): number {
  const rise = target[2] - elbow[2];
  const low = Math.min(elbow[2], target[2]) - radius;
  const all = gapAt(body, whole, low, low + Math.abs(rise) + 2 * radius);
  if (all >= ENOUGH_MM) return all;
  const slabs = Math.ceil(Math.abs(rise) / SLAB_MM);
  if (slabs <= 1) return all;
  let least = ENOUGH_MM;
  const at = (k: number, axis: 0 | 1) => elbow[axis] + ((target[axis] - elbow[axis]) * k) / slabs;
  for (let k = 0; k < slabs; k++) {
    const from = elbow[2] + (rise * k) / slabs;
    const to = elbow[2] + (rise * (k + 1)) / slabs;
    const shape = capsule(at(k, 0), at(k, 1), at(k + 1, 0), at(k + 1, 1), radius);
    least = Math.min(least, gapAt(body, shape, Math.min(from, to) - radius, Math.max(from, to) + radius));
  }
  return least;
}

/** mm, at most ENOUGH_MM; below 0: it runs into something. */
export function roomRound(pose: SetArm, near: readonly Body[]): number {
  const { arm, post, elbow, target, own, carrier } = pose;
  const radius = armRadius(arm);
  let room = ENOUGH_MM;
  if (own) {
    const ownMm = ownRoom(own, pose, radius);
    if (ownMm < 0) return ownMm - OWN_FIRST_MM;
    room = Math.min(room, ownMm + ENOUGH_MM - OWN_ENOUGH_MM);
  }
  if (near.length === 0) return room;
  const upright = disc(post[0], post[1], radius);
  const whole = capsule(elbow[0], elbow[1], target[0], target[1], radius);
  for (const body of near) {
    let gap = armGap(body, whole, pose, radius);
    if (elbow[2] > post[2]) gap = Math.min(gap, gapAt(body, upright, post[2], elbow[2]));
    if (gap > 0 && carries(carrier, body)) gap = ENOUGH_MM;
    if (gap < room) room = gap;
  }
  return room;
}
