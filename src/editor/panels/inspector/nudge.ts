/** Moving and turning pieces by single steps: what the arrow buttons and arrow keys do. */
import type { PlacePieces } from '../../../plan/commands/pieces.ts';
import { tidyDeg, tidyMm } from '../../../plan/numbers.ts';
import type { Piece } from '../../../plan/schema.ts';
import { type DisplayUnit, MM_PER_IN, toRadians } from '../../../units.ts';

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

/** The command that moves all pieces alike: absolute places, so that it can be replayed. */
export function nudge(
  setup: string,
  pieces: readonly Piece[],
  { dxMm = 0, dyMm = 0, turnDeg = 0 }: Nudge,
): PlacePieces {
  const middleX = pieces.reduce((sum, { place }) => sum + place.xMm, 0) / pieces.length;
  const middleY = pieces.reduce((sum, { place }) => sum + place.yMm, 0) / pieces.length;
  const c = Math.cos(toRadians(turnDeg));
  const s = Math.sin(toRadians(turnDeg));
  const places: Record<string, PlacePieces['places'][string]> = {};
  for (const { id, place } of pieces) {
    const x = place.xMm - middleX;
    const y = place.yMm - middleY;
    places[id] = {
      xMm: tidyMm(middleX + c * x - s * y + dxMm),
      yMm: tidyMm(middleY + s * x + c * y + dyMm),
      ...(turnDeg === 0 ? {} : { headingDeg: tidyDeg(place.headingDeg + turnDeg) }),
    };
  }
  return { type: 'placePieces', setup, places };
}
