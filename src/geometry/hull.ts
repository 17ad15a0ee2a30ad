/**
 * The convex hull of many swept shapes: a loop of arcs and straight pieces, round things kept round.
 *
 * Units:  one length unit throughout; area in its square.
 * Exact:  closed form; relative error about 1e-15.
 * Inputs: shapes from shapes.ts. No shapes: area 0, an empty loop.
 */

import { roundsOf, type Stretch, upperEnvelope } from './envelope.ts';
import { TAU } from './frame.ts';
import { Integral, type Loop, type Pen, type Piece } from './outline.ts';
import type { Swept } from './shapes.ts';

/** Draws the hull counter-clockwise, beginning in direction 0. */
function drawHull(stretches: readonly Stretch[], pen: Pen): void {
  const n = stretches.length;
  for (let k = 0; k < n; k++) {
    const { from, to, round } = stretches[k];
    if (round.r > 0) pen.arc(round.x, round.y, round.r, from, to - from);
    const next = stretches[(k + 1) % n].round;
    if (next === round) continue;
    const c = Math.cos(to);
    const s = Math.sin(to);
    const x0 = round.x + round.r * c;
    const y0 = round.y + round.r * s;
    const x1 = next.x + next.r * c;
    const y1 = next.y + next.r * s;
    if (x0 !== x1 || y0 !== y1) pen.segment(x0, y0, x1, y1);
  }
}

/** The area of the convex hull. */
export function hullArea(shapes: readonly Swept[]): number {
  const stretches = upperEnvelope(roundsOf(shapes));
  if (stretches.length === 0) return 0;
  const sum = new Integral(stretches[0].round.x, stretches[0].round.y);
  drawHull(stretches, sum);
  return sum.area;
}

/** The hull's edge, counter-clockwise. A single point without radius has none; a bare line goes there and back. */
export function hull(shapes: readonly Swept[]): Loop {
  const pieces: Piece[] = [];
  drawHull(upperEnvelope(roundsOf(shapes)), {
    segment: (x0, y0, x1, y1) => pieces.push({ kind: 'segment', x0, y0, x1, y1 }),
    arc(cx, cy, r, start, sweep) {
      pieces.push({ kind: 'arc', cx, cy, r, start, sweep });
    },
  });
  // The stretch round direction 0 comes in two halves; one arc is enough.
  const first = pieces[0];
  const last = pieces[pieces.length - 1];
  if (pieces.length > 1 && first.kind === 'arc' && last.kind === 'arc') {
    if (first.cx === last.cx && first.cy === last.cy && first.r === last.r) {
      pieces[0] = { ...first, start: last.start - TAU, sweep: first.sweep + last.sweep };
      pieces.pop();
    }
  }
  return pieces;
}
