/**
 * How close two things may be. The defaults are our own, chosen for how much each swings or is moved in playing; they are
 * nobody's rule, and a plan may set its own for any pair of kinds, or null to leave that pair unchecked.
 */
import type { BodyKind } from '../gear/bodyKinds.ts';
import type { Limits } from '../plan/schema.ts';

/** Every pair not named below. */
export const DEFAULT_CLEARANCE_MM = 15;

/** Heights closer than this count as meeting: a cymbal dips by about this much when it is hit. Our own default. */
export const DEFAULT_HEIGHT_MM = 10;

/** Every pair closer than this is listed in the report, whatever its limit. */
export const LISTED_BELOW_MM = 60;

/**
 * mm; null: not checked. Pairs of kinds in alphabetical order, joined by '+'.
 * cymbal rows: cymbals swing. throne rows: someone sits down there. stageItem rows: people walk between.
 */
export const PAIR_DEFAULTS: Readonly<Record<string, number | null>> = {
  'bassDrum+cymbal': 20,
  'cymbal+cymbal': 25,
  'cymbal+floorTom': 20,
  'cymbal+snare': 20,
  'cymbal+tom': 20,
  'foot+foot': 10,
  'pedal+pedal': 25,
  'pedal+throne': 30,
  'snare+throne': 30,
  'stageItem+stageItem': null,
  'stand+stand': 10,
  'throne+tom': 30,
  'floorTom+throne': 30,
};

export const pairOfKinds = (a: BodyKind, b: BodyKind): string => (a < b ? `${a}+${b}` : `${b}+${a}`);

/** The limit for a pair of kinds, mm; null when the pair is not checked. */
export function requiredClearance(limits: Limits | undefined, a: BodyKind, b: BodyKind): number | null {
  const pair = pairOfKinds(a, b);
  const own = limits?.clearanceMm;
  if (own && Object.hasOwn(own, pair)) return own[pair];
  return Object.hasOwn(PAIR_DEFAULTS, pair) ? PAIR_DEFAULTS[pair] : DEFAULT_CLEARANCE_MM;
}

/** Where the limit is from, for the finding. */
export function clearanceSource(limits: Limits | undefined, a: BodyKind, b: BodyKind): string {
  const own = limits?.clearanceMm;
  return own && Object.hasOwn(own, pairOfKinds(a, b)) ? 'set in this plan' : "Legroom's own default";
}
