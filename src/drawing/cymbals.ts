/**
 * Cymbals from above: thin, because they hang above everything, with the bell and a few rings; tilted ones as true
 * ellipses. What tells the uses apart is drawn: the pair of a hi-hat, a china's turned-up rim, a stack's lesser top.
 */
import type { GearOf } from '../gear/schema.ts';
import { BELL_RATIO } from '../layout/drums.ts';
import { THIN } from './displayList.ts';
import { tiltedAxes } from './drums.ts';
import type { Pen } from './pen.ts';

/** Rings inside the edge, as parts of the radius, by use. */
const RINGS: Readonly<Record<GearOf<'cymbal'>['use'], readonly number[]>> = {
  hiHat: [0.94],
  crash: [0.62],
  ride: [0.5, 0.75],
  splash: [],
  china: [0.84, 0.88],
  stack: [0.8, 0.74],
};

export function drawCymbal(pen: Pen, gear: GearOf<'cymbal'>, tiltRad: number): void {
  const radius = gear.diameterMm / 2;
  const { across, along } = tiltedAxes(radius, tiltRad);
  const squeeze = along / across;
  // The bell stands above the edge plane, and leans with the tilt: upstage when the back is lowered.
  const lean = gear.profileMm * Math.sin(tiltRad);
  pen.ellipse(0, 0, across, along, { line: THIN, tint: 'overhead', covered: 'dashed' });
  for (const ring of RINGS[gear.use])
    pen.ellipse(0, lean * (1 - ring), radius * ring, radius * ring * squeeze, { line: THIN, tint: null, ink: 'faint' });
  const bell = radius * BELL_RATIO;
  pen.ellipse(0, lean, bell, bell * squeeze, { line: THIN, tint: null });
  pen.dot(0, lean, 9);
}
