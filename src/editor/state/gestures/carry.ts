/** Which pieces a drag moves, and where to: what is selected, what stands on a stand with it, and with "carry along" all that hangs on it. */

import type { PlacePieces } from '../../../plan/commands/pieces.ts';
import { movedWith, type PieceMotion, placesByMotion } from '../../../plan/motion.ts';
import type { Plan, Setup } from '../../../plan/schema.ts';

/** Locked pieces stay where they are. In the setup's order. */
function movingPieces(plan: Plan, setup: Setup, selection: readonly string[], carries: boolean): string[] {
  const wanted = new Set(selection);
  for (const id of selection) for (const held of movedWith(plan, setup, id, carries)) wanted.add(held);
  return setup.order.filter((id) => wanted.has(id) && setup.pieces[id]?.locked !== true);
}

/** Null when everything that would move is locked. */
export function movedCommand(
  { plan, setup }: { readonly plan: Plan; readonly setup: Setup },
  selection: readonly string[],
  carries: boolean,
  motion: PieceMotion,
): PlacePieces | null {
  const ids = movingPieces(plan, setup, selection, carries);
  return ids.length === 0 ? null : { type: 'placePieces', setup: setup.id, places: placesByMotion(setup, ids, motion) };
}
