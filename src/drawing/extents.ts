/** Boxes of what a drawing is laid out by, and its centre line; mm of the plan. */
import { extent } from '../geometry/support.ts';
import { isKit } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { Stage } from '../plan/schema.ts';
import type { DrawnBox } from './displayList.ts';

/** The deck's box, or null without one. */
export function deckBox(layout: Layout): DrawnBox | null {
  const corners = layout.deck?.modules.flat();
  if (!corners?.length) return null;
  const box = { minX: corners[0], minY: corners[1], maxX: corners[0], maxY: corners[1] };
  for (let k = 2; k < corners.length; k += 2) {
    box.minX = Math.min(box.minX, corners[k]);
    box.maxX = Math.max(box.maxX, corners[k]);
    box.minY = Math.min(box.minY, corners[k + 1]);
    box.maxY = Math.max(box.maxY, corners[k + 1]);
  }
  return box;
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

/** Whether two boxes share more than an edge. */
export const boxesMeet = (a: DrawnBox, b: DrawnBox): boolean =>
  a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
