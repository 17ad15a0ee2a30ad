/**
 * Moving pieces together, as the places that one placePieces command writes; and what a piece carries, for the explicit
 * way of moving a rack with everything on it.
 */
import { gearOf } from '../gear/catalogue.ts';
import { toRadians } from '../units.ts';
import { carrierPiece } from './carriers.ts';
import type { PlaceChange } from './commands/pieces.ts';
import { tidyDeg, tidyMm } from './numbers.ts';
import { own } from './places.ts';
import type { Plan, Setup } from './schema.ts';

/** Turn about a point of the plan, then shift. mm and degrees. */
export interface PieceMotion {
  readonly turnDeg: number;
  readonly aboutXMm: number;
  readonly aboutYMm: number;
  readonly dxMm: number;
  readonly dyMm: number;
}

/** Where the pieces stand after the motion. Pieces that are not in the setup are left out. */
export function placesByMotion(
  setup: Pick<Setup, 'pieces'>,
  pieces: readonly string[],
  { turnDeg, aboutXMm, aboutYMm, dxMm, dyMm }: PieceMotion,
): Record<string, PlaceChange> {
  const c = Math.cos(toRadians(turnDeg));
  const s = Math.sin(toRadians(turnDeg));
  const places: Record<string, PlaceChange> = {};
  for (const id of pieces) {
    const piece = own(setup.pieces, id);
    if (!piece) continue;
    const x = piece.place.xMm - aboutXMm;
    const y = piece.place.yMm - aboutYMm;
    places[id] = {
      xMm: tidyMm(aboutXMm + dxMm + c * x - s * y),
      yMm: tidyMm(aboutYMm + dyMm + s * x + c * y),
      // A piece that only shifts keeps its heading as it was written.
      ...(turnDeg === 0 ? {} : { headingDeg: tidyDeg(piece.place.headingDeg + turnDeg) }),
    };
  }
  return places;
}

/**
 * The pieces that hang on a piece by their mounts, and those that hang on them, in the setup's order; not the piece
 * itself. A tied stand has its own feet on the deck or stands close by, so a tie does not carry.
 */
export function carriedBy(setup: Setup, id: string): string[] {
  const carried = new Set<string>([id]);
  let grown = true;
  while (grown) {
    grown = false;
    for (const [other, piece] of Object.entries(setup.pieces)) {
      if (carried.has(other) || piece.kind === 'rack' || piece.mount === null) continue;
      if (!carried.has(carrierPiece(piece.mount.carrier))) continue;
      carried.add(other);
      grown = true;
    }
  }
  return setup.order.filter((each) => each !== id && carried.has(each));
}

/**
 * What goes along when a piece is moved: of a stand all that is on it, which nobody takes off for that; of anything else, a rack too, what
 * hangs on it only where that is asked for. In the setup's order, without the piece itself.
 */
export function movedWith({ gear }: Pick<Plan, 'gear'>, setup: Setup, id: string, carries: boolean): string[] {
  const piece = own(setup.pieces, id);
  const isStand = piece?.kind === 'item' && gearOf(gear, piece.gear)?.kind === 'stand';
  return carries || isStand ? carriedBy(setup, id) : [];
}
