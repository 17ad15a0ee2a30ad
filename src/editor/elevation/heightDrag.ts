/** A height that is dragged in the elevation, as the command that sets it: one for a drum, a cymbal, a seat or a stand, one for a rack's bar. */
import type { HeightGrip } from '../../drawing/elevation.ts';
import type { Command } from '../../plan/commands/index.ts';

/** As the grid of the plan has it. */
const STEP_MM = 10;

/** `upMm`: how far the pointer went up, mm. Held to whole mm, to 10 mm where steps are asked for, and to the deck. */
export function heightCommand(setup: string, grip: HeightGrip, upMm: number, steps: boolean): Command {
  const step = steps ? STEP_MM : 1;
  const heightMm = Math.max(0, Math.round((grip.heightMm + upMm) / step) * step);
  return grip.bar === null
    ? { type: 'placePieces', setup, places: { [grip.piece]: { heightMm } } }
    : { type: 'setBar', setup, rack: grip.piece, bar: grip.bar, set: { heightMm } };
}
