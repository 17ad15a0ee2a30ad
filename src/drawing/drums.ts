/**
 * Drums from above: the hoop and the head inside it, the lugs as ticks across the hoop, and a tilted drum as it is seen:
 * its top and its bottom as true ellipses with the shell between them.
 *
 * The piece's anchor is the middle of its top; tilt lowers the edge that lies upstage at heading 0.
 */

import type { GearOf } from '../gear/schema.ts';
import { TAU } from '../geometry/frame.ts';
import { CENTRE, type Line, THIN } from './displayList.ts';
import type { Pen } from './pen.ts';

/** Lugs by size: common practice, no source. */
function lugCount(diameterMm: number): number {
  if (diameterMm < 250) return 5;
  if (diameterMm < 320) return 6;
  if (diameterMm < 450) return 8;
  return 10;
}

/** How far inside its outer edge a hoop's inner edge is drawn, so that the two lines stay two at 1:20. */
const LEAST_HOOP_MM = 12;

/** The top's half axis across the tilt is the radius; along it, the radius times the cosine. */
export function tiltedAxes(radiusMm: number, tiltRad: number): { across: number; along: number } {
  return { across: radiusMm, along: radiusMm * Math.abs(Math.cos(tiltRad)) };
}

export function drawDrum(pen: Pen, gear: GearOf<'drum'>, tiltRad: number, edge: Line): void {
  const radius = gear.diameterMm / 2 + gear.hoopMm;
  const hoop = Math.max(gear.hoopMm, LEAST_HOOP_MM);
  const { across, along } = tiltedAxes(radius, tiltRad);
  const squeeze = along / across;
  // The bottom's middle lies downstage of the top's when the back is lowered.
  const slide = -gear.depthMm * Math.sin(tiltRad);
  if (slide !== 0) {
    pen.ellipse(0, slide, across, along, { line: edge, covered: 'dashed' });
    pen.polygon([-across, 0, -across, slide, across, slide, across, 0], { line: null });
    pen.line([-across, 0, -across, slide], { line: edge, covered: 'dashed' });
    pen.line([across, 0, across, slide], { line: edge, covered: 'dashed' });
    const lugs = lugCount(gear.diameterMm);
    for (let k = 0; k < lugs; k++) {
      const angle = (TAU * (k + 0.5)) / lugs;
      const x = across * Math.cos(angle);
      const y = along * Math.sin(angle);
      // Only the side that faces the way the bottom slid is in sight.
      if (Math.sign(y) === Math.sign(slide)) pen.line([x, y + slide * 0.3, x, y + slide * 0.75], { ink: 'faint' });
    }
  }
  pen.ellipse(0, 0, across, along, { line: edge, covered: 'dashed' });
  pen.ellipse(0, 0, across - hoop, (across - hoop) * squeeze, { line: THIN, tint: null });
  const lugs = lugCount(gear.diameterMm);
  for (let k = 0; k < lugs; k++) {
    const angle = (TAU * (k + 0.5)) / lugs;
    const c = Math.cos(angle);
    const s = Math.sin(angle) * squeeze;
    pen.line([(across - hoop) * c, (across - hoop) * s, across * c, across * s], { line: THIN });
  }
}

/** Width of a bass drum's wooden hoop along its axis: common practice, no source. */
const BASS_HOOP_MM = 38;

/** On its side: shell between two hoops, claws on the hoops, lugs along the shell, its axis as a centre line. */
export function drawBassDrum(pen: Pen, gear: GearOf<'bassDrum'>, edge: Line): void {
  const across = gear.diameterMm + 2 * gear.hoopMm;
  const half = gear.depthMm / 2;
  const hoop = Math.min(BASS_HOOP_MM, gear.depthMm / 6);
  // The shell itself is within the hoops; it is drawn a little narrower so that the hoops show.
  const shell = gear.diameterMm - (gear.hoopMm > 4 ? 0 : 16);
  pen.box(0, 0, shell, gear.depthMm - 2 * hoop, { line: edge, covered: 'dashed' });
  for (const side of [-1, 1]) pen.box(0, side * (half - hoop / 2), across, hoop, { line: edge, covered: 'dashed' });
  // Seen from above, tension rods stand evenly round the drum: their feet bunch towards the sides.
  const rods = 10;
  for (let k = 0; k < rods / 2; k++) {
    const x = (shell / 2) * Math.cos((Math.PI * (k + 0.5)) / (rods / 2));
    for (const side of [-1, 1]) {
      const y = side * (half - hoop);
      pen.line([x, y - side * (half - hoop) * 0.34, x, y + side * hoop * 0.5], { line: THIN });
      pen.box(x, y - side * (half - hoop) * 0.22, 18, (half - hoop) * 0.2, { line: THIN, tint: null });
    }
  }
  pen.line([0, half + 40, 0, -half - 40], { line: CENTRE, layer: 'centre', ink: 'faint' });
}
