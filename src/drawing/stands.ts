/** What a stand has on top. Its legs, tube and foot are the layout's bodies. */
import { TAU } from '../geometry/frame.ts';
import { capsule } from '../geometry/shapes.ts';
import { THIN } from './displayList.ts';
import type { Pen } from './pen.ts';
import { tintOfHeight } from './tubes.ts';

/** Radius of a basket's arm, of the rubber across its end and that rubber's half length: common practice, no source. */
const ARM_RADIUS_MM = 4;
const REST_RADIUS_MM = 8;
const REST_HALF_MM = 24;

/**
 * A snare stand's basket: three arms with the rests across their ends, opened half-way between its least and its most. The
 * rests and the thin arms tell it from a tripod's legs.
 */
export function drawBasket(pen: Pen, [least, most]: readonly [number, number], zMm: number): void {
  const reach = (least + most) / 4 - REST_RADIUS_MM;
  for (let k = 0; k < 3; k++) {
    const angle = Math.PI / 2 + (TAU * k) / 3;
    const changes = { line: THIN, tint: tintOfHeight(zMm), covered: 'dashed' as const };
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    pen.shape(capsule(0, 0, reach * c, reach * s, ARM_RADIUS_MM), changes);
    const [x, y] = [reach * c, reach * s];
    const [ax, ay] = [REST_HALF_MM * s, -REST_HALF_MM * c];
    pen.shape(capsule(x - ax, y - ay, x + ax, y + ay, REST_RADIUS_MM), changes);
  }
}
