/**
 * Which directions an arc covers, asked with products instead of angles: an arctangent near the ends of an arc
 * would cost time, and a cosine of half the sweep would lose half the digits for nearly closed rings.
 */
import { TAU } from './frame.ts';
import type { ArcCore } from './shapes.ts';

/** An arc's unit directions from its centre: to its start, end and middle; `major` from half a turn up. */
export interface Span {
  readonly startX: number;
  readonly startY: number;
  readonly endX: number;
  readonly endY: number;
  readonly midX: number;
  readonly midY: number;
  readonly major: boolean;
  readonly full: boolean;
}

export function spanOf({ start, sweep }: ArcCore): Span {
  return {
    startX: Math.cos(start),
    startY: Math.sin(start),
    endX: Math.cos(start + sweep),
    endY: Math.sin(start + sweep),
    midX: Math.cos(start + sweep / 2),
    midY: Math.sin(start + sweep / 2),
    major: sweep > Math.PI,
    full: sweep >= TAU,
  };
}

/**
 * Whether the direction (x, y), of any length, points at the arc, its ends included.
 *
 * Exact: but for directions within a few 1e-16 rad of an end. Every caller also tries the ends themselves, so
 * that a wrong answer there moves a distance by no more than the same few 1e-16 of the bend radius.
 */
export function spanHas(span: Span, x: number, y: number): boolean {
  const pastStart = span.startX * y - span.startY * x >= 0;
  const beforeEnd = x * span.endY - y * span.endX >= 0;
  // The middle decides for directions opposite the ends, where both products vanish.
  const nearMiddle = span.midX * x + span.midY * y >= 0;
  // Is more than half a turn covered? Then one reason is enough; else all three are needed.
  if (span.major) return span.full || pastStart || beforeEnd || nearMiddle;
  return pastStart && beforeEnd && nearMiddle;
}
