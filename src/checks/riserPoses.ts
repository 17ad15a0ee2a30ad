/** Where on its riser the whole kit keeps the most margin: turned and shifted, and shifted alone. */
import { bestPoseConvex, bestShiftConvex, type Pose } from '../geometry/pose.ts';
import { bestPosesUnion } from '../geometry/poseUnion.ts';
import { keeper } from '../keep.ts';
import { isKit } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { KitTurns } from '../plan/facing.ts';
import { toDegrees, toRadians } from '../units.ts';
import { convexDeck, preparedDeck } from './riserFit.ts';

/**
 * Turn everything by `angle` degrees about the plan's origin, then shift by `move` mm: what stands on the deck keeps `margin` mm.
 * No other pose keeps more than `within` mm above that: 0 on a convex riser, 0.01 mm on others unless the search runs out.
 * Turned, the kit faces the audience to `turnAtMost` degrees, or as nearly as it does now; of a shift it is 0.
 */
export interface RiserPose {
  readonly angle: number;
  readonly move: readonly [number, number];
  readonly margin: number;
  readonly within: number;
  readonly turnAtMost: number;
}

/** Null where there is nothing to measure: an empty setup, or no riser. */
export interface RiserPoses {
  /** And the best of those that only shift and do not turn. On a riser whose outline is not convex: null where none keeps all on it. */
  readonly bestRiserPose: RiserPose | null;
  readonly bestRiserShift: RiserPose | null;
}

const keepPoses = keeper<RiserPoses>();

/**
 * The best poses of what stands on the deck. They are searched for: asked for by a panel, a comparison and the report, never in a frame.
 * `turns`: how far the kit may be turned.
 */
export const riserPoses = (layout: Layout, turns: KitTurns): RiserPoses =>
  keepPoses(layout, [turns.least, turns.most, turns.atMost], () => posesOn(layout, turns));

function posesOn({ bodies, deck }: Layout, turns: KitTurns): RiserPoses {
  const shapes = bodies.filter((body) => isKit(body) && body.touchesFloor).map(({ shape }) => shape);
  if (!deck || shapes.length === 0) return { bestRiserPose: null, bestRiserShift: null };
  const { least, most, atMost } = turns;
  const range = { least: toRadians(least), most: toRadians(most) };
  const reading = (found: Pose | null, within: number, turnAtMost: number): RiserPose | null =>
    found && { angle: toDegrees(found.angle), move: [found.dx, found.dy], margin: found.margin, within, turnAtMost };
  const outline = convexDeck(deck);
  if (outline)
    return {
      bestRiserPose: reading(bestPoseConvex(outline, shapes, range), 0, atMost),
      bestRiserShift: reading(bestShiftConvex(outline, shapes), 0, 0),
    };
  const { pose, shift } = bestPosesUnion(preparedDeck(deck), shapes, range);
  return {
    bestRiserPose: reading(pose, pose?.within ?? 0, atMost),
    bestRiserShift: reading(shift, shift?.within ?? 0, 0),
  };
}
