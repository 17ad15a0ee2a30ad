/** Which pieces a drag moves, and where to: what is selected, and with "carry along" what hangs on it too. */

import type { PlacePieces } from '../../../plan/commands/pieces.ts';
import { carriedBy, type PieceMotion, placesByMotion } from '../../../plan/motion.ts';
import type { Setup } from '../../../plan/schema.ts';

/** Locked pieces stay where they are. In the setup's order. */
function movingPieces(setup: Setup, selection: readonly string[], carries: boolean): string[] {
  const wanted = new Set(selection);
  if (carries) for (const id of selection) for (const held of carriedBy(setup, id)) wanted.add(held);
  return setup.order.filter((id) => wanted.has(id) && setup.pieces[id]?.locked !== true);
}

/** Null when everything that would move is locked. */
export function movedCommand(
  setup: Setup,
  selection: readonly string[],
  carries: boolean,
  motion: PieceMotion,
): PlacePieces | null {
  const ids = movingPieces(setup, selection, carries);
  return ids.length === 0 ? null : { type: 'placePieces', setup: setup.id, places: placesByMotion(setup, ids, motion) };
}
