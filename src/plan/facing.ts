/**
 * Which way a kit faces, and how far it may be turned, so that a search for its place on a riser keeps the drummer towards the
 * audience.
 */
import { gearOf } from '../gear/catalogue.ts';
import { toDegrees, toRadians } from '../units.ts';
import { own } from './places.ts';
import { type Plan, type Setup, TURN_AT_MOST_DEG } from './schema.ts';

/**
 * Degrees from facing the audience, counter-clockwise, in (-180, 180]: as the thrones do, or without one the bass drums; two that are
 * splayed face between them. 0 where nothing of the kit says.
 */
function facingDeg(plan: Plan, setup: Setup): number {
  for (const kind of ['throne', 'bassDrum']) {
    let [x, y] = [0, 0];
    for (const piece of Object.values(setup.pieces)) {
      if (piece.kind !== 'item' || gearOf(plan.gear, piece.gear)?.kind !== kind) continue;
      x += Math.cos(toRadians(piece.place.headingDeg));
      y += Math.sin(toRadians(piece.place.headingDeg));
    }
    // Two back to back say nothing.
    if (Math.hypot(x, y) > 0.01) return toDegrees(Math.atan2(y, x));
  }
  return 0;
}

/** Degrees. */
export interface KitTurns {
  /** From facing the audience. */
  readonly atMost: number;
  /** From how the kit stands. To stay, and to turn less far than it faces now, is always allowed. */
  readonly least: number;
  readonly most: number;
}

/** How far the best place on its riser may turn a setup. */
export function kitTurns(plan: Plan, setup: Setup): KitTurns {
  const riser = setup.riser === null ? undefined : own(plan.risers, setup.riser);
  const atMost = riser?.turnAtMostDeg ?? TURN_AT_MOST_DEG;
  if (atMost >= 180) return { atMost, least: -180, most: 180 };
  const facing = facingDeg(plan, setup);
  return { atMost, least: Math.min(0, -atMost - facing), most: Math.max(0, atMost - facing) };
}
