/**
 * Thrones from above: a round seat with its piping, or a saddle with its nose toward the kit. Legs come from the layout.
 */

import type { GearOf } from '../gear/schema.ts';
import { hull } from '../geometry/hull.ts';
import type { Loop } from '../geometry/outline.ts';
import { disc } from '../geometry/shapes.ts';
import { type Line, THIN } from './displayList.ts';
import type { Pen } from './pen.ts';

/** A saddle's thighs' pads and nose, as parts of its depth and width: common practice, no source. */
const PAD_PART = 0.3;
const NOSE_PART = 0.2;

/** A saddle's edge: two pads behind (own +y), a nose before (own -y), and the tangents that join the three. */
function saddleEdge(widthMm: number, depthMm: number): Loop {
  const pad = Math.min(depthMm * PAD_PART, widthMm / 2);
  const nose = Math.min(widthMm * NOSE_PART, depthMm / 2);
  return hull([
    disc(-widthMm / 2 + pad, depthMm / 2 - pad, pad),
    disc(widthMm / 2 - pad, depthMm / 2 - pad, pad),
    disc(0, -depthMm / 2 + nose, nose),
  ]);
}

export function drawSeat(pen: Pen, gear: GearOf<'throne'>, edge: Line): void {
  const { widthMm: width, depthMm: depth } = gear;
  const seam = Math.min(18, width / 6);
  if (gear.seat === 'round') {
    pen.ellipse(0, 0, width / 2, depth / 2, { line: edge, covered: 'dashed' });
    pen.ellipse(0, 0, width / 2 - seam, depth / 2 - seam, { line: THIN, tint: null, ink: 'faint' });
  } else {
    pen.outline(saddleEdge(width, depth), { line: edge, covered: 'dashed' });
    pen.outline(saddleEdge(width - 2 * seam, depth - 2 * seam), { line: THIN, tint: null, ink: 'faint' });
  }
}
