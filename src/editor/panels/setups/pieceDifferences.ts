/** What differs between two setups, piece by piece: the same id is the same piece in both. */
import type { Piece, Setup } from '../../../plan/schema.ts';

export interface PieceDifference {
  readonly id: string;
  readonly name: string;
  readonly what: 'added' | 'removed' | 'moved' | 'changed';
  /** How far the anchor moved, mm; 0 where it only turned, or is not in both. */
  readonly movedMm: number;
  readonly turnedDeg: number;
}

/** Tapes read no finer than this. mm and degrees. */
const SAME_MM = 0.5;
const SAME_DEG = 0.05;

/** Everything but where it stands, as text. Key order follows the file, which is the same for a piece that was copied. */
function without(piece: Piece): string {
  const { place, ...rest } = piece;
  return JSON.stringify([rest, place.heightMm ?? null, place.tiltDeg ?? null]);
}

export function pieceDifferences(from: Setup, to: Setup): PieceDifference[] {
  const differences: PieceDifference[] = [];
  const blank = { movedMm: 0, turnedDeg: 0 };
  for (const id of from.order) {
    if (!Object.hasOwn(to.pieces, id)) differences.push({ id, name: from.pieces[id].name, what: 'removed', ...blank });
  }
  for (const id of to.order) {
    const after = to.pieces[id];
    const before = Object.hasOwn(from.pieces, id) ? from.pieces[id] : undefined;
    if (before === undefined) {
      differences.push({ id, name: after.name, what: 'added', ...blank });
      continue;
    }
    if (before === after) continue;
    const movedMm = Math.hypot(after.place.xMm - before.place.xMm, after.place.yMm - before.place.yMm);
    const turn = ((((after.place.headingDeg - before.place.headingDeg + 180) % 360) + 360) % 360) - 180;
    const changed = without(before) !== without(after);
    const moved = movedMm >= SAME_MM || Math.abs(turn) >= SAME_DEG;
    if (changed || moved)
      differences.push({
        id,
        name: after.name,
        what: changed ? 'changed' : 'moved',
        movedMm: movedMm >= SAME_MM ? movedMm : 0,
        turnedDeg: Math.abs(turn) >= SAME_DEG ? turn : 0,
      });
  }
  return differences;
}
