/**
 * Which directions an arc covers, asked with products instead of angles: an arctangent near the ends of an arc
 * would cost time, and a cosine of half the sweep would lose half the digits for nearly closed rings.
 */
import { TAU } from './frame.ts';
import type { ArcCore } from './shapes.ts';

/** Numbers of one span: unit directions from the centre to start, end and middle (x, y each), then the kind of span. */
export const SPAN = 7;

const MINOR = 0;
const MAJOR = 1;
const FULL = 2;

/** Writes an arc's span into an array from `at` on, and returns the array. */
export function spanOf({ start, sweep }: ArcCore, into: Float64Array = new Float64Array(SPAN), at = 0): Float64Array {
  into[at] = Math.cos(start);
  into[at + 1] = Math.sin(start);
  into[at + 2] = Math.cos(start + sweep);
  into[at + 3] = Math.sin(start + sweep);
  into[at + 4] = Math.cos(start + sweep / 2);
  into[at + 5] = Math.sin(start + sweep / 2);
  into[at + 6] = sweep >= TAU ? FULL : sweep > Math.PI ? MAJOR : MINOR;
  return into;
}

/**
 * Whether the direction (x, y), of any length, points at the arc whose span stands at `at`, its ends included.
 *
 * Exact: but for directions within a few 1e-16 rad of an end. Every caller also tries the ends themselves, so
 * that a wrong answer there moves a distance by no more than the same few 1e-16 of the bend radius.
 */
export function spanHas(span: Float64Array, at: number, x: number, y: number): boolean {
  const pastStart = span[at] * y - span[at + 1] * x >= 0;
  const beforeEnd = x * span[at + 3] - y * span[at + 2] >= 0;
  // The middle decides for directions opposite the ends, where both products vanish.
  const nearMiddle = span[at + 4] * x + span[at + 5] * y >= 0;
  // Is more than half a turn covered? Then one reason is enough; else all three are needed.
  if (span[at + 6] === MINOR) return pastStart && beforeEnd && nearMiddle;
  return span[at + 6] === FULL || pastStart || beforeEnd || nearMiddle;
}
