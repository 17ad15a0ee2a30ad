/** Moving and turning pieces by single steps: what the arrow buttons and arrow keys do. */
import type { PlaceChange, PlacePieces } from '../../plan/commands/pieces.ts';
import { movedWith, placesByMotion } from '../../plan/motion.ts';
import type { Piece, Plan, Setup } from '../../plan/schema.ts';

type Geared = Pick<Plan, 'gear'>;

import { type DisplayUnit, MM_PER_IN } from '../../units.ts';

export interface Nudge {
  readonly dxMm?: number;
  readonly dyMm?: number;
  /** Counter-clockwise, each piece about its own anchor; several about the middle of their anchors. */
  readonly turnDeg?: number;
}

/** Step sizes on offer, mm. */
export function nudgeSteps(units: DisplayUnit): readonly number[] {
  return units === 'mm' ? [1, 5, 10, 50, 100] : [MM_PER_IN / 16, MM_PER_IN / 4, MM_PER_IN, 6 * MM_PER_IN];
}

/**
 * The command that moves all pieces alike: absolute places, so that it can be replayed. `carried`: what hangs on them
 * and comes along, turned about the same middle.
 */
export function nudge(
  setup: string,
  pieces: readonly Piece[],
  { dxMm = 0, dyMm = 0, turnDeg = 0 }: Nudge,
  carried: readonly Piece[] = [],
): PlacePieces {
  const aboutXMm = pieces.reduce((sum, { place }) => sum + place.xMm, 0) / pieces.length;
  const aboutYMm = pieces.reduce((sum, { place }) => sum + place.yMm, 0) / pieces.length;
  const moved = Object.fromEntries([...pieces, ...carried].map((piece) => [piece.id, piece]));
  const motion = { turnDeg, aboutXMm, aboutYMm, dxMm, dyMm };
  const places = placesByMotion({ pieces: moved }, Object.keys(moved), motion);
  return { type: 'placePieces', setup, places };
}

/** What moves along with the pieces (plan/motion.ts) and may; without the pieces themselves. */
export function carriedPieces(plan: Geared, setup: Setup, pieces: readonly Piece[], carries: boolean): Piece[] {
  const own = new Set(pieces.map(({ id }) => id));
  const held = new Set(pieces.flatMap(({ id }) => movedWith(plan, setup, id, carries)));
  return [...held].filter((id) => !own.has(id) && setup.pieces[id].locked !== true).map((id) => setup.pieces[id]);
}

/** A piece put at a place by its fields, and what moves along with it. */
export function placeCarrying(
  plan: Geared,
  setup: Setup,
  piece: Piece,
  change: PlaceChange,
  carries: boolean,
): PlacePieces {
  const { place } = piece;
  const how = {
    dxMm: (change.xMm ?? place.xMm) - place.xMm,
    dyMm: (change.yMm ?? place.yMm) - place.yMm,
    turnDeg: (change.headingDeg ?? place.headingDeg) - place.headingDeg,
  };
  const moves = how.dxMm !== 0 || how.dyMm !== 0 || how.turnDeg !== 0;
  const { places } = moves
    ? nudge(setup.id, [piece], how, carriedPieces(plan, setup, [piece], carries))
    : { places: {} };
  // What was typed stays as it was typed.
  return { type: 'placePieces', setup: setup.id, places: { ...places, [piece.id]: change } };
}
