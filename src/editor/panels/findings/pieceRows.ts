/** Where pieces are, in words: what the canvas shows, for whoever does not see it. */
import { carrierPiece } from '../../../plan/carriers.ts';
import type { Piece, Place, Setup } from '../../../plan/schema.ts';
import { type DisplayUnit, formatAngle, formatLength } from '../../../units.ts';

/** `420 mm stage left, 150 mm upstage`: from the plan's origin, seen by the performer facing the audience. */
export function positionText({ xMm, yMm }: Place, units: DisplayUnit): string {
  // Below a tenth of a millimetre it stands on the line.
  const side =
    Math.abs(xMm) < 0.05
      ? 'on the centre line'
      : `${formatLength(Math.abs(xMm), units)} stage ${xMm > 0 ? 'left' : 'right'}`;
  const depth =
    Math.abs(yMm) < 0.05
      ? 'on the base line'
      : `${formatLength(Math.abs(yMm), units)} ${yMm > 0 ? 'upstage' : 'downstage'}`;
  return `${side}, ${depth}`;
}

/** A heading as a turn from facing the audience. */
export function headingText(headingDeg: number): string {
  const turn = ((((headingDeg + 180) % 360) + 360) % 360) - 180;
  if (Math.abs(turn) < 0.05) return 'facing the audience';
  return `turned ${formatAngle(Math.abs(turn))} ${turn > 0 ? 'to stage left' : 'to stage right'}`;
}

/** The whole of a piece's place in one line. A rack's heading is that of its first bar. */
export function placeText(piece: Piece, units: DisplayUnit): string {
  const parts = [positionText(piece.place, units)];
  if (piece.kind === 'rack') parts.push(`first bar at ${formatAngle(piece.place.headingDeg)}`);
  else parts.push(headingText(piece.place.headingDeg));
  if (piece.place.heightMm !== undefined) parts.push(`${formatLength(piece.place.heightMm, units)} high`);
  if (piece.place.tiltDeg) parts.push(`tilted ${formatAngle(piece.place.tiltDeg)}`);
  return parts.join(', ');
}

/** What holds a piece, by name; empty for what stands by itself. */
export function heldText(piece: Piece, setup: Setup): string {
  if (piece.kind === 'rack' || piece.mount === null) return '';
  const { carrier } = piece.mount;
  const holder = setup.pieces[carrierPiece(carrier)];
  return holder === undefined ? '' : `held by ${holder.name || 'an unnamed piece'}`;
}

type Rows = ReadonlySet<string | number>;

export const sameRows = (rows: Rows, ids: readonly string[]): boolean =>
  rows.size === ids.length && ids.every((id) => rows.has(id));

/**
 * What is chosen after a row was pressed. `now`: as the list box has it, which adds the row or takes it away; right where Shift or
 * Ctrl was held (`isMore`), else the row alone is meant. The set stays the list box's own: it knows where a range began.
 */
export function picked<T extends Rows>(before: Rows, now: T, isMore: boolean): T {
  if (isMore) return now;
  const pressed = [...now].find((key) => !before.has(key)) ?? [...before].find((key) => !now.has(key));
  const set = now as unknown as Set<string | number>;
  set.clear();
  if (pressed !== undefined) set.add(pressed);
  return now;
}
