/** Where an arm takes hold of a piece. reachMounts.ts says why there. */
import { heightMmIn } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import type { Point3 } from '../geometry/solids.ts';
import { headNormal } from '../plan/items.ts';
import type { Item } from '../plan/schema.ts';
import { toRadians } from '../units.ts';

export type { Point3 };

export interface Held {
  readonly item: Item;
  readonly gear: Gear;
}

/** Where a post at (x, y) takes hold of a piece. */
export function holdPoint(item: Item, gear: Gear, x: number, y: number): Point3 {
  const { xMm, yMm } = item.place;
  const height = heightMmIn(item.place, gear) ?? 0; // what has none stands on the deck
  if (gear.kind !== 'drum') return [xMm, yMm, height];
  // Half the depth down is the shell's middle.
  const heading = toRadians(item.place.headingDeg);
  const normal = headNormal(item);
  const half = gear.depthMm / 2;
  const middle: Point3 = [xMm - half * normal[0], yMm - half * normal[1], height - half * normal[2]];
  // The way to the post, laid into the plane of the shell's circle.
  let ux = x - middle[0];
  let uy = y - middle[1];
  if (ux === 0 && uy === 0) [ux, uy] = [Math.sin(heading), -Math.cos(heading)];
  const out = ux * normal[0] + uy * normal[1];
  const across: Point3 = [ux - out * normal[0], uy - out * normal[1], -out * normal[2]];
  const size = Math.hypot(...across);
  if (size === 0) return middle; // a drum on its side, pointing at the post: held at its middle
  const radius = gear.diameterMm / 2;
  return [
    middle[0] + (radius * across[0]) / size,
    middle[1] + (radius * across[1]) / size,
    middle[2] + (radius * across[2]) / size,
  ];
}
