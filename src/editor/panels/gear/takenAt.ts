/** What a microphone or DI takes when it is let go at a place: the nearest thing that sounds and reaches that far. */
import { gearOf } from '../../../gear/catalogue.ts';
import type { Gear } from '../../../gear/schema.ts';
import type { Plan, Setup } from '../../../plan/schema.ts';
import { reachOf } from './freePlace.ts';

/** A microphone stands this close to what it takes, beyond the thing's own reach. Common practice, no source. mm. */
const CLOSE_MM = 150;

/** What a microphone or a DI box is put to. */
export const sounds = (gear: Gear): boolean =>
  gear.kind === 'drum' ||
  gear.kind === 'bassDrum' ||
  gear.kind === 'cymbal' ||
  (gear.kind === 'stageItem' && (gear.use === 'amplifier' || gear.use === 'keyboard'));

/** The piece's id; undefined where the gear takes nothing, or nothing that sounds is close. */
export function takenAt(plan: Plan, setup: Setup, gear: Gear, xMm: number, yMm: number): string | undefined {
  if (gear.kind !== 'stageItem' || (gear.use !== 'microphone' && gear.use !== 'di')) return undefined;
  let taken: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    const source = piece?.kind === 'item' ? gearOf(plan.gear, piece.gear) : undefined;
    if (source === undefined || !sounds(source)) continue;
    const far = Math.hypot(piece.place.xMm - xMm, piece.place.yMm - yMm);
    if (far > reachOf(source) + CLOSE_MM || far >= least) continue;
    least = far;
    taken = id;
  }
  return taken;
}
