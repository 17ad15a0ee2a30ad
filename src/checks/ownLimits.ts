/**
 * Limits for loads and stability. The defaults are our own, for want of any code that speaks of drum racks; a plan may set
 * each of them. None of them replaces a rating plate, local codes, the venue or licensed practice.
 */
import type { Limits, Plan } from '../plan/schema.ts';

export const LOAD_DEFAULTS = {
  /**
   * Degrees that the floor may tilt before something tips. 8: a stand whose mass is 1 m up keeps 140 mm to its tipping line;
   * a deck that is out of level, a soft carpet and a leaning elbow together stay below it.
   */
  tipAngleDeg: 8,
  /** Rubber on a stage floor: no published table was found for it; half, as wood on wood. */
  friction: 0.5,
  /** The player, kg: the middle of men in ANSUR II (84.6). */
  playerKg: 85,
  /** A bar that sags more than this looks bent. */
  sagMm: 5,
  /**
   * Turning moment on one clamp or joint, N m: about a 16 in floor tom at 350 mm, which plain clamps are seen to hold (common practice, no
   * source). Beyond it a plain clamp slowly turns, and what another holds is for its maker to state.
   */
  clampMomentNm: 25,
  /** Part of the stress at which a tube bends for good. Two thirds: the usual factor of 1.5. */
  stressPart: 2 / 3,
  /** Part of a deck's rating from which it is called tight. */
  deckPart: 0.8,
} as const;

export type LoadLimit = keyof typeof LOAD_DEFAULTS;

const OWN_DEFAULT = "Legroom's own default";
const SET_HERE = 'set in this plan';

/** A limit and where it is from. */
export function loadLimit(plan: Plan, name: LoadLimit): { value: number; source: string } {
  const set = (plan.limits as Limits | undefined)?.[name];
  return typeof set === 'number'
    ? { value: set, source: SET_HERE }
    : { value: LOAD_DEFAULTS[name], source: OWN_DEFAULT };
}
