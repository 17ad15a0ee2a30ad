/**
 * Where a new piece can stand without touching anything: rings around the wanted place, nearest first.
 *
 * A help, not a check: the piece counts as a disc of its largest radius, and heights are left aside.
 */

import { gapValue } from '../../../geometry/gap.ts';
import { disc } from '../../../geometry/shapes.ts';
import type { Body } from '../../../layout/body.ts';

/** Air kept to the neighbours, the rings' distance, and how far out is still "here". mm. */
const AIR_MM = 30;
const RING_MM = 100;
const FARTHEST_MM = 3000;

/** The nearest free place to (x, y); (x, y) itself when all around is taken. */
export function freePlace(bodies: readonly Body[], x: number, y: number, reachMm: number): [number, number] {
  const free = (px: number, py: number) => {
    const wanted = disc(px, py, reachMm + AIR_MM);
    return bodies.every(({ shape }) => gapValue(wanted, shape) > 0);
  };
  for (let ring = 0; ring <= FARTHEST_MM; ring += RING_MM) {
    const stops = Math.max(1, Math.round((2 * Math.PI * ring) / RING_MM));
    for (let i = 0; i < stops; i++) {
      // Upstage first: the audience's side is where the drawing's dimensions are.
      const angle = Math.PI / 2 + (2 * Math.PI * i) / stops;
      const px = Math.round(x + ring * Math.cos(angle));
      const py = Math.round(y + ring * Math.sin(angle));
      if (free(px, py)) return [px, py];
    }
  }
  return [Math.round(x), Math.round(y)];
}
