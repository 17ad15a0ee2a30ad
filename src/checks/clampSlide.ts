/**
 * How far a clamp may slide along its tube before it meets its neighbours, a joint with a leg, or the tube's end.
 *
 * Units:  mm along the tube's centre line.
 * Widths: as checks/barRoom.ts takes them, half on either side of a clamp's place.
 */
import type { ClampPlace } from './barRoom.ts';

/** A clamp that lies in another's room already is not pushed out of it: it may leave to where there is room, not go further in. */
export function slideRange(
  length: number,
  others: readonly ClampPlace[],
  atMm: number,
  widthMm: number,
): [number, number] {
  let low = Math.min(widthMm / 2, atMm);
  let high = Math.max(length - widthMm / 2, atMm);
  for (const other of others) {
    const apart = (other.widthMm + widthMm) / 2;
    if (other.atMm <= atMm) low = Math.max(low, Math.min(other.atMm + apart, atMm));
    else high = Math.min(high, Math.max(other.atMm - apart, atMm));
  }
  return [low, high];
}
