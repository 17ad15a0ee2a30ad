/** What a microphone or DI takes when it is let go at a place: the nearest thing that sounds and reaches that far. */
import { gearOf } from '../../../gear/catalogue.ts';
import { isPlaceable, placedKind, sourceOf } from '../../../gear/kinds.ts';
import type { Gear } from '../../../gear/schema.ts';
import { STAGE_USES } from '../../../gear/uses.ts';
import type { Plan, Setup } from '../../../plan/schema.ts';

/** A microphone stands this close to what it takes, beyond the thing's own reach. Common practice, no source. mm. */
const CLOSE_MM = 150;

/** The piece's id; undefined where the gear takes nothing, or nothing that sounds is close. */
export function takenAt(plan: Plan, setup: Setup, gear: Gear, xMm: number, yMm: number): string | undefined {
  if (gear.kind !== 'stageItem' || STAGE_USES[gear.use].asks !== 'source') return undefined;
  let taken: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    const source = piece?.kind === 'item' ? gearOf(plan.gear, piece.gear) : undefined;
    if (source === undefined || !isPlaceable(source) || sourceOf(source) === null) continue;
    const far = Math.hypot(piece.place.xMm - xMm, piece.place.yMm - yMm);
    if (far > placedKind(source).reachMm(source) + CLOSE_MM || far >= least) continue;
    least = far;
    taken = id;
  }
  return taken;
}
