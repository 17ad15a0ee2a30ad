/**
 * Pedals from above: base plate and hoop clamp at the toe, footboard with its treads and hinge, heel plate behind. The
 * toe points along the piece's forward direction: downstage at heading 0, own -y.
 */

import type { GearOf } from '../gear/schema.ts';
import { capsule } from '../geometry/shapes.ts';
import { type Line, THIN } from './displayList.ts';
import type { Pen } from './pen.ts';

/** Heel plate's part of the board's length; treads between hinge and toe: common practice, no source. */
const HEEL_PART = 0.22;
const TREADS = 5;

/** A footboard alone, its middle at the origin: also a hi-hat stand's. */
export function drawBoard(pen: Pen, lengthMm: number, widthMm: number, edge: Line): void {
  const toe = -lengthMm / 2;
  const heel = lengthMm / 2;
  const hinge = heel - lengthMm * HEEL_PART;
  const w = widthMm / 2;
  pen.polygon([-w, hinge, -w * 0.9, heel, w * 0.9, heel, w, hinge], { line: edge, covered: 'dashed' });
  pen.polygon([-w * 0.82, toe, -w, toe + lengthMm * 0.2, -w, hinge, w, hinge, w, toe + lengthMm * 0.2, w * 0.82, toe], {
    line: edge,
    covered: 'dashed',
  });
  for (let k = 1; k <= TREADS; k++) {
    const y = toe + ((hinge - toe) * k) / (TREADS + 1);
    pen.line([-w * 0.6, y, w * 0.6, y], { line: THIN, ink: 'faint' });
  }
  pen.line([-w, hinge - 6, w, hinge - 6], { line: THIN });
}

/** One pedal, its middle at the origin. */
export function drawPedal(pen: Pen, gear: GearOf<'pedal'>, edge: Line): void {
  const { boardLengthMm: length, boardWidthMm: width, plateWidthMm: plate } = gear;
  const toe = -length / 2;
  const plateDepth = length * 0.3;
  pen.box(0, toe + plateDepth / 2, Math.max(plate, width), plateDepth, { line: edge, covered: 'dashed' });
  // The two rods that join the plate to the heel.
  for (const side of [-1, 1]) pen.line([side * width * 0.3, toe, side * width * 0.3, length / 2], { line: THIN });
  drawBoard(pen, length, width, edge);
  // The cam's axle between its posts, across the toe, and the beater's shaft.
  const post = Math.max(plate, width) / 2 - 10;
  const y = toe + plateDepth * 0.45;
  pen.shape(capsule(-post, y, post, y, 7), { line: THIN });
  for (const side of [-1, 1]) pen.box(side * post, y, 20, 34, { line: THIN });
  pen.box(0, toe + 10, Math.min(60, width * 0.7), 20, { line: THIN });
}
