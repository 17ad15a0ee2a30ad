/** What is drawn, as a box: what is brought into sight, and what dimensions stand round. */
import { deckBox, kitBox } from '../../drawing/extents.ts';
import { type Box, extent } from '../../geometry/support.ts';
import type { Layout } from '../../layout/layout.ts';
import type { Plan, Setup } from '../../plan/schema.ts';
import { stageOf } from '../../plan/stages.ts';
import { boxRound, type Point } from './view.ts';

/** Where there is nothing yet: 3 by 2 m about the plan's origin. */
const NOTHING: Box = { minX: -1500, minY: -1000, maxX: 1500, maxY: 1000 };

const cornersOf = ({ minX, minY, maxX, maxY }: Box): Point[] => [
  { x: minX, y: minY },
  { x: maxX, y: maxY },
];

/** The kit and its riser; where there is no kit, whatever stands on the stage. mm. */
export function contentBox(layout: Layout): Box {
  const boxes = [deckBox(layout), kitBox(layout)].filter((box) => box !== null);
  if (boxes.length > 0) return boxRound(boxes.flatMap(cornersOf));
  return extent(layout.bodies.map((body) => body.shape)) ?? NOTHING;
}

/** All that is drawn: the stage with its wings and cable runs, and everything on it. mm. */
export function wholeBox(plan: Plan, setup: Setup, layout: Layout): Box {
  const stage = stageOf(plan, setup);
  const corners = [
    ...(stage ? [...stage.outline, ...stage.wings.flatMap(({ outline }) => outline)] : []),
    ...(setup.cables ?? []).flatMap(({ points }) => points),
  ].map(({ xMm, yMm }) => ({ x: xMm, y: yMm }));
  const all = extent(layout.bodies.map((body) => body.shape));
  return boxRound([...corners, ...cornersOf(contentBox(layout)), ...(all ? cornersOf(all) : [])]);
}
