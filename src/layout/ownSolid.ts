/**
 * The drum or cymbal that an arm holds, as a solid at its true tilt: what its own arm may not run through.
 *
 * A drum is the cylinder of its shell: an arm ends at it, and what bracket and ball joint take up, HOLD_MM, does not count. A cymbal
 * sits on a tilter, TILTER_MM beyond the arm's end at least: its solid is raised by as much along its own axis, so that an arm which
 * comes from below ends under it, and one which comes from above runs through it. (Both lengths: common practice, no source.)
 *
 * Units: mm.
 */

import { heightMmIn } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import { type Cylinder, lineToCylinder } from '../geometry/cylinder.ts';
import { headNormal } from '../plan/items.ts';
import type { Item } from '../plan/schema.ts';
import type { Point3 } from './holdPoint.ts';

const HOLD_MM = 40;
const TILTER_MM = 40;

export interface OwnSolid extends Cylinder {
  /** The last of the arm that does not count. */
  readonly holdMm: number;
}

/** Null: neither drum nor cymbal. */
export function ownSolid(item: Item, gear: Gear): OwnSolid | null {
  if (gear.kind !== 'drum' && gear.kind !== 'cymbal') return null;
  const axis = headNormal(item);
  const isDrum = gear.kind === 'drum';
  const half = (isDrum ? gear.depthMm : gear.profileMm) / 2;
  const up = isDrum ? -half : TILTER_MM + half;
  const { xMm, yMm } = item.place;
  const height = heightMmIn(item.place, gear) ?? 0;
  return {
    middle: [xMm + up * axis[0], yMm + up * axis[1], height + up * axis[2]],
    axis,
    radius: gear.diameterMm / 2,
    half,
    holdMm: isDrum ? HOLD_MM : 0,
  };
}

/** Air between a straight stretch of an arm and the piece it holds, mm; below 0: it runs into it. */
export const solidRoom = (solid: OwnSolid, from: Point3, to: Point3, radius: number): number =>
  lineToCylinder(from, to, solid) - radius;
