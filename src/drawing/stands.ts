/** What a stand has on top. Its legs, tube and foot are the layout's bodies. */
import { TAU } from '../geometry/frame.ts';
import { capsule } from '../geometry/shapes.ts';
import { THIN } from './displayList.ts';
import type { Pen } from './pen.ts';
import { tintOfHeight } from './tubes.ts';

/** Radius of a basket's arm: common practice, no source. */
const ARM_RADIUS_MM = 8;

/** A snare stand's basket: three arms with their rests, opened half-way between its least and its most. */
export function drawBasket(pen: Pen, [least, most]: readonly [number, number], zMm: number): void {
  const reach = (least + most) / 4 - ARM_RADIUS_MM;
  for (let k = 0; k < 3; k++) {
    const angle = Math.PI / 2 + (TAU * k) / 3;
    const changes = { line: THIN, tint: tintOfHeight(zMm), covered: 'dashed' as const };
    pen.shape(capsule(0, 0, reach * Math.cos(angle), reach * Math.sin(angle), ARM_RADIUS_MM), changes);
  }
}
