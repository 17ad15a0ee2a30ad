/** Where a double pedal's second pedal goes to begin with: under the foot that plays the hi-hat. */
import { gearOf } from '../gear/catalogue.ts';
import { SECOND_PEDAL } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import { toRadians } from '../units.ts';
import type { Item, Plan, Setup } from './schema.ts';

const isHat = (gear: Gear | undefined): boolean =>
  (gear?.kind === 'stand' || gear?.kind === 'cymbal') && gear.use === 'hiHat';
const isThrone = (gear: Gear | undefined): boolean => gear?.kind === 'throne';

/** Nearer to the pedal's own line than this, a throne says nothing about sides, mm. */
const ON_LINE_MM = 50;

/**
 * On the side of the hi-hat; without one, of the throne, which the first pedal's foot is beside; else to the player's left. The place
 * is relative to the first pedal, in its own frame.
 */
export function secondPedal(plan: Pick<Plan, 'gear'>, setup: Setup, pedal: Item): NonNullable<Item['second']> {
  const turn = -toRadians(pedal.place.headingDeg);
  /** To the player's left of the pedal, mm. */
  const leftMm = (which: (gear: Gear | undefined) => boolean): number | null => {
    for (const id of setup.order) {
      const piece = setup.pieces[id];
      if (piece?.kind !== 'item' || !which(gearOf(plan.gear, piece.gear))) continue;
      const [dx, dy] = [piece.place.xMm - pedal.place.xMm, piece.place.yMm - pedal.place.yMm];
      return dx * Math.cos(turn) - dy * Math.sin(turn);
    }
    return null;
  };
  const hat = leftMm(isHat);
  const throne = leftMm(isThrone) ?? 0;
  const left = hat ?? (Math.abs(throne) > ON_LINE_MM ? throne : 1);
  const { xMm, yMm, headingDeg } = SECOND_PEDAL;
  return left >= 0 ? { xMm, yMm, headingDeg } : { xMm: -xMm, yMm, headingDeg: -headingDeg };
}
