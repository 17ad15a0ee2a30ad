/**
 * Where a kit stands best on its riser. The same search on the command line and in the page's worker: what it is asked is plain data, so that
 * it crosses to a worker, and it says on the way how far it is and what it has.
 */
import { bestPoseConvex, bestShiftConvex, type Pose } from '../geometry/pose.ts';
import { bestPosesUnion, type ProvenPoses } from '../geometry/poseUnion.ts';
import type { Swept } from '../geometry/shapes.ts';
import { keeper } from '../keep.ts';
import { isKit } from '../layout/body.ts';
import type { DeckLayout, Layout } from '../layout/layout.ts';
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

export interface RiserPoses {
  readonly pose: RiserPose | null;
  readonly shift: RiserPose | null;
}

/** A riser, what stands on the floor, and how far it may be turned. */
export interface PoseAsk {
  readonly deck: DeckLayout;
  readonly shapes: readonly Swept[];
  readonly turns: KitTurns;
}

/** Told now and then: what part of the search is done at most, and the best so far. */
export type PoseWatch = (part: number, sofar: RiserPoses) => void;

/** Null without a riser, or with nothing on the floor. */
export function poseAsk({ bodies, deck }: Layout, turns: KitTurns): PoseAsk | null {
  if (deck === null) return null;
  const shapes = bodies.filter((body) => isKit(body) && body.touchesFloor).map(({ shape }) => shape);
  return shapes.length === 0 ? null : { deck, shapes, turns };
}

const reading = (found: Pose | null, within: number, turnAtMost: number): RiserPose | null =>
  found && { angle: toDegrees(found.angle), move: [found.dx, found.dy], margin: found.margin, within, turnAtMost };

const proven = ({ pose, shift }: ProvenPoses, turnAtMost: number): RiserPoses => ({
  pose: reading(pose, pose?.within ?? 0, turnAtMost),
  shift: reading(shift, shift?.within ?? 0, 0),
});

/** The best pose, and the best of those that only shift. */
export function riserPoses(ask: PoseAsk | null, watch?: PoseWatch): RiserPoses {
  if (ask === null) return { pose: null, shift: null };
  const { deck, shapes, turns: allowed } = ask;
  const { least, most, atMost } = allowed;
  const turns = { least: toRadians(least), most: toRadians(most) };
  const outline = convexDeck(deck);
  if (outline)
    return {
      pose: reading(bestPoseConvex(outline, shapes, turns), 0, atMost),
      shift: reading(bestShiftConvex(outline, shapes), 0, 0),
    };
  const told = watch && ((part: number, sofar: ProvenPoses) => watch(part, proven(sofar, atMost)));
  return proven(bestPosesUnion(preparedDeck(deck), shapes, turns, { watch: told }), atMost);
}

const keepPoses = keeper<RiserPoses>();

/** The best poses of a layout, searched for once: a report and its comparison ask for the same. */
export const posesOf = (layout: Layout, turns: KitTurns): RiserPoses =>
  keepPoses(layout, [turns.least, turns.most, turns.atMost], () => riserPoses(poseAsk(layout, turns)));
