/**
 * Other things on the stage, from above, each told apart by its outline: what they are is also written beside them.
 * Own -y is where they face: an amplifier's or a wedge's grille, a keyboard's player side is the other.
 */

import type { GearOf } from '../gear/schema.ts';
import { TAU } from '../geometry/frame.ts';
import { disc } from '../geometry/shapes.ts';
import { type Line, NEIGHBOUR, THIN } from './displayList.ts';
import type { Pen } from './pen.ts';

export function drawStageItem(pen: Pen, gear: GearOf<'stageItem'>, edge: Line): void {
  const { widthMm: w, depthMm: d } = gear;
  if (gear.use === 'person') {
    // A person moves: drawn as neighbouring and moving things are, shoulders with a head.
    pen.ellipse(0, 0, w / 2, d / 2, { line: NEIGHBOUR, tint: null });
    pen.ellipse(0, -d * 0.06, Math.min(w, d) * 0.22, Math.min(w, d) * 0.26, { line: THIN, tint: null });
    return;
  }
  if (gear.use === 'microphone') {
    // A stand's legs within the round they need, which hides nothing; the microphone in its middle.
    const r = Math.min(w, d) / 2;
    pen.circle(0, 0, r, { line: NEIGHBOUR, tint: null, ink: 'faint' });
    for (const k of [0, 1, 2]) {
      const angle = Math.PI / 2 + (TAU * k) / 3;
      pen.line([0, 0, r * Math.cos(angle), r * Math.sin(angle)], { line: edge });
    }
    pen.shape(disc(0, 0, Math.max(r * 0.18, 18)), { line: THIN, tint: 'paper' });
    return;
  }
  if (gear.shape === 'round') pen.ellipse(0, 0, w / 2, w / 2, { line: edge, covered: 'dashed' });
  else pen.box(0, 0, w, d, { line: edge, covered: 'dashed' });
  switch (gear.use) {
    case 'amplifier':
      pen.line([-w / 2, -d / 2 + d * 0.18, w / 2, -d / 2 + d * 0.18], { line: THIN });
      pen.box(0, d * 0.12, w * 0.3, Math.min(30, d * 0.15), { line: THIN, tint: null });
      return;
    case 'wedge':
      // The slope's ridge, and the fall lines of the grille.
      pen.line([-w / 2, d * 0.2, w / 2, d * 0.2], { line: THIN });
      for (const x of [-0.3, 0, 0.3]) pen.line([x * w, d * 0.2, x * w, -d * 0.38], { line: THIN, ink: 'faint' });
      return;
    case 'di':
      pen.line([-w / 2, -d / 2, w / 2, d / 2], { line: THIN });
      return;
    case 'power':
      pen.circle(-w * 0.18, 0, Math.min(w, d) * 0.14, { line: THIN, tint: null });
      pen.circle(w * 0.18, 0, Math.min(w, d) * 0.14, { line: THIN, tint: null });
      return;
    case 'keyboard':
      pen.line([-w * 0.47, d * 0.05, w * 0.47, d * 0.05], { line: THIN });
      for (let k = -7; k <= 7; k++)
        pen.line([(k / 15) * w, d * 0.05, (k / 15) * w, d / 2], { line: THIN, ink: 'faint' });
      return;
  }
}
