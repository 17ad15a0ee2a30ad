/**
 * Outlines as plain polygons, for outputs without arcs and for comparison with polygon programs.
 *
 * 'inside' gives a polygon that lies within the shape, 'outside' one that holds it: a round stretch becomes chords where the solid
 * bulges and tangents where it is hollow, or the other way about. Either way no point of the polygon is farther than the
 * chord error from the true edge, nor the reverse.
 *
 * Units:  mm for lengths and the chord error. Exact: up to rounding of the coordinates.
 * Inputs: a chord error above 0. Throws: RangeError otherwise. Shapes without area give an empty outer loop.
 */
import { outline } from './loops.ts';
import type { Loop } from './outline.ts';
import type { Swept } from './shapes.ts';

/** Corners x0, y0, x1, y1 ...: the outer loop counter-clockwise, holes clockwise. */
export interface FlatOutline {
  readonly outer: number[];
  readonly holes: number[][];
}

export type Side = 'inside' | 'outside';

/** Equal steps over an arc that keep chords (or corners of tangents) within the error. */
function steps(r: number, sweep: number, error: number, tangents: boolean): number {
  // Beyond a sixth of a turn a step is too coarse to be an arc at all, whatever the error allows.
  const ratio = Math.min(error / r, 0.13);
  const half = tangents ? Math.acos(1 / (1 + ratio)) : Math.acos(1 - ratio);
  return Math.max(1, Math.ceil(Math.abs(sweep) / (2 * half) - 1e-12));
}

/** The corners of one loop. */
export function flattenLoop(loop: Loop, chordErrorMm: number, side: Side): number[] {
  if (!(chordErrorMm > 0)) throw new RangeError(`A chord error must be above 0 mm, not ${chordErrorMm}.`);
  const points: number[] = [];
  for (const p of loop) {
    if (p.kind === 'segment') {
      points.push(p.x0, p.y0);
      continue;
    }
    const tangents = p.sweep > 0 === (side === 'outside');
    const n = steps(p.r, p.sweep, chordErrorMm, tangents);
    const step = p.sweep / n;
    const whole = loop.length === 1;
    if (!tangents || !whole) points.push(p.cx + p.r * Math.cos(p.start), p.cy + p.r * Math.sin(p.start));
    if (tangents) {
      const far = p.r / Math.cos(step / 2);
      for (let k = 0; k < n; k++) {
        const angle = p.start + (k + 0.5) * step;
        points.push(p.cx + far * Math.cos(angle), p.cy + far * Math.sin(angle));
      }
    } else {
      for (let k = 1; k < n; k++) {
        const angle = p.start + k * step;
        points.push(p.cx + p.r * Math.cos(angle), p.cy + p.r * Math.sin(angle));
      }
    }
  }
  return points;
}

/** The outline of a shape as polygons: the outer loop, and the hole of a closed ring. */
export function flatten(s: Swept, chordErrorMm: number, side: Side = 'inside'): FlatOutline {
  const loops = outline(s).map((loop) => flattenLoop(loop, chordErrorMm, side));
  return { outer: loops[0] ?? [], holes: loops.slice(1) };
}
