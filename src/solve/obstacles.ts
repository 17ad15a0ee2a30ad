/**
 * Would an arm or clamp that is not there yet run into something? The bodies of a setup, asked again and again.
 *
 * As the checks have it: what leans is measured in space, an arm may touch what it is joined to at the joint alone (checks/joints.ts),
 * and a pair of kinds that is not checked does not count. Only a gap of 0 or less does: what is merely tight is for the check to say.
 */
import { carrierHits, ownHits } from '../checks/joints.ts';
import { requiredClearance } from '../checks/limits.ts';
import { meets } from '../checks/spaceGaps.ts';
import { disc } from '../geometry/shapes.ts';
import { type Box, boxOf } from '../geometry/support.ts';
import { armBodies } from '../layout/armBodies.ts';
import type { Body } from '../layout/body.ts';
import { carries } from '../layout/joined.ts';
import type { MountPose } from '../layout/reachMounts.ts';
import { stretchesOf } from '../layout/stretches.ts';
import { carrierPiece } from '../plan/carriers.ts';
import type { Plan } from '../plan/schema.ts';

/** How far a clamp stands out round its tube, mm. Common practice, no source. */
const CLAMP_WALL_MM = 8;

interface Obstacle {
  readonly body: Body;
  readonly box: Box;
}

const apart = (a: Box, b: Box): boolean => a.maxX < b.minX || b.maxX < a.minX || a.maxY < b.minY || b.maxY < a.minY;

export class Obstacles {
  private readonly obstacles: readonly Obstacle[];
  constructor(plan: Plan, bodies: readonly Body[], skipped: ReadonlySet<string>) {
    this.obstacles = bodies
      .filter(({ piece, kind }) => !skipped.has(piece) && requiredClearance(plan.limits, 'arm', kind) !== null)
      .map((body) => ({ body, box: boxOf(body.shape) }));
  }

  /** The piece that the arm or its clamp runs into, its own or the first in the setup's order; null: it is clear. */
  struckBy(pose: MountPose): string | null {
    const holder = carrierPiece(pose.carrier);
    const own = [...armBodies(pose, -1, holder, ''), ...clampBody(pose)].map((body) => ({
      ...body,
      box: boxOf(body.shape),
    }));
    const stretches = stretchesOf(pose);
    if (ownHits(pose, stretches).length > 0) return pose.piece;
    const carrying = this.obstacles.map(({ body }) => body).filter((body) => carries(pose.carrier, body));
    if (carrierHits(pose, stretches, carrying).length > 0) return holder;
    for (const { body, box } of this.obstacles) {
      if (carries(pose.carrier, body)) continue;
      for (const each of own) {
        if (!apart(each.box, box) && meets(each, body)) return body.piece;
      }
    }
    return null;
  }
}

/** A clamp as a disc about its tube: bounded from outside along the tube. */
function clampBody({ clamp, clampAt: [x, y, z], carrier }: MountPose) {
  if (clamp === null) return [];
  const grip = clamp.tubeMm[1] / 2 + CLAMP_WALL_MM;
  const half = clamp.widthMm / 2;
  const [radius, high] = carrier.on === 'leg' ? [grip, half] : [half, grip];
  return [{ z0: z - high, z1: z + high, shape: disc(x, y, radius) }];
}
