/** Boxes of what a drawing is laid out by, and its centre line; mm of the plan. */
import { pointsOf } from '../gather.ts';
import { extent } from '../geometry/support.ts';
import { isKit } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { Stage } from '../plan/schema.ts';
import { boxRound, type DrawnBox } from './displayList.ts';

/** The deck's box, or null without one. */
export function deckBox(layout: Layout): DrawnBox | null {
  const corners = layout.deck?.modules.flat() ?? [];
  return corners.length === 0 ? null : boxRound(pointsOf(corners));
}

/** The box of the kit: every body but other things on the stage. Null for an empty setup. */
export function kitBox(layout: Layout): DrawnBox | null {
  return extent(layout.bodies.filter(isKit).map((body) => body.shape));
}

/** x of the centre line: the stage's own; without a stage the riser's middle; without either the plan's own 0. */
export function centreLineX(layout: Layout, stage?: Pick<Stage, 'centreXMm'>): number {
  if (stage) return stage.centreXMm;
  const deck = deckBox(layout);
  return deck ? (deck.minX + deck.maxX) / 2 : 0;
}

export const grown = (box: DrawnBox, by: number): DrawnBox => ({
  minX: box.minX - by,
  minY: box.minY - by,
  maxX: box.maxX + by,
  maxY: box.maxY + by,
});
