/**
 * The revised lifting equation: the mass that nearly all healthy workers may lift with both hands under given conditions,
 * RWL = LC x HM x VM x DM x AM x FM x CM, and the lifting index LI = load / RWL.
 *
 * Units:  cm and kg. The manual's constants for in and lb are no exact conversions of these.
 * Exact:  unrounded multipliers. The manual's own examples round them to two places, results to one.
 * Inputs: finite. Distances and heights >= 0; an angle either way.
 * Source: Waters, Putz-Anderson, Garg, Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110,
 *         revised 9/2021, pp. 7-20.
 */
export type Duration = 'short' | 'moderate' | 'long';
export type Grip = 'good' | 'fair' | 'poor';

/** One lift. Distances in cm, the angle in degrees. */
export interface LiftTask {
  /** H: from the middle between the ankles to the hands. */
  readonly horizontal: number;
  /** V: height of the hands above the floor. */
  readonly vertical: number;
  /** D: how far the hands travel up or down. */
  readonly travel: number;
  /** A: how far the load is off straight ahead. */
  readonly asymmetryDeg: number;
  /** F: lifts a minute, averaged over 15 minutes. */
  readonly liftsPerMinute: number;
  /** Work of up to 1 h, up to 2 h, up to 8 h, each with the rest that the manual asks for. */
  readonly duration: Duration;
  readonly grip: Grip;
}

export interface Multipliers {
  readonly horizontal: number;
  readonly vertical: number;
  readonly distance: number;
  readonly asymmetry: number;
  readonly frequency: number;
  readonly coupling: number;
}

export interface LiftAnswer {
  readonly multipliers: Multipliers;
  /** Recommended weight limit, kg; 0 where a multiplier is 0: the equation then allows no lift at all. */
  readonly limit: number;
}

/** LC, kg. */
const LOAD_KG = 23;
/** cm. HM: 1 up to the first, 0 past the second. */
const LEAST_H = 25;
const MOST_H = 63;
/** cm. VM is 1 at knuckle height, and less by a part for each cm above or below it. */
const KNUCKLE = 75;
const PER_CM = 0.003;
const MOST_V = 175;
/** cm. DM: 0.82 + OVER_D / D, 1 up to LEAST_D. */
const LEAST_D = 25;
const OVER_D = 4.5;
const MOST_D = 175;

/** Table 5's rows, lifts a minute. */
const RATES = [0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15];

/**
 * Table 5's columns. `low`: how many rows hold with the hands below knuckle height (75 cm); after them only the
 * higher lift is allowed, and past a column's end none. The last two of `long` are from memory of the table; all others
 * were seen.
 */
const FREQUENCY: Readonly<Record<Duration, { readonly values: readonly number[]; readonly low: number }>> = {
  short: {
    values: [1, 0.97, 0.94, 0.91, 0.88, 0.84, 0.8, 0.75, 0.7, 0.6, 0.52, 0.45, 0.41, 0.37, 0.34, 0.31, 0.28],
    low: 14,
  },
  moderate: {
    values: [0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.6, 0.5, 0.42, 0.35, 0.3, 0.26, 0.23, 0.21],
    low: 12,
  },
  long: { values: [0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18, 0.15, 0.13], low: 10 },
};

/**
 * FM: linear between the table's rows; below 0.2 a minute it is that row. A rate beyond the last allowed row gives 0, and so
 * does one between it and the next: the table allows nothing there.
 */
export function frequencyMultiplier(liftsPerMinute: number, duration: Duration, handsLow: boolean): number {
  const { values, low } = FREQUENCY[duration];
  const rows = handsLow ? low : values.length;
  if (liftsPerMinute <= RATES[0]) return values[0];
  for (let k = 1; k < rows; k++) {
    if (liftsPerMinute > RATES[k]) continue;
    const share = (liftsPerMinute - RATES[k - 1]) / (RATES[k] - RATES[k - 1]);
    return values[k - 1] + (values[k] - values[k - 1]) * share;
  }
  return 0;
}

/** CM, Table 7: a fair grip costs something only below knuckle height. */
function couplingMultiplier(grip: Grip, handsLow: boolean): number {
  if (grip === 'good') return 1;
  if (grip === 'poor') return 0.9;
  return handsLow ? 0.95 : 1;
}

/** The recommended weight limit of one lift, with its multipliers. See the head of this file. */
export function liftLimit(task: LiftTask): LiftAnswer {
  const handsLow = task.vertical < KNUCKLE;
  const angle = Math.abs(task.asymmetryDeg);
  const multipliers: Multipliers = {
    horizontal: task.horizontal > MOST_H ? 0 : LEAST_H / Math.max(task.horizontal, LEAST_H),
    vertical: task.vertical > MOST_V ? 0 : 1 - PER_CM * Math.abs(task.vertical - KNUCKLE),
    distance: task.travel > MOST_D ? 0 : 0.82 + OVER_D / Math.max(task.travel, LEAST_D),
    asymmetry: angle > 135 ? 0 : 1 - 0.0032 * angle,
    frequency: frequencyMultiplier(task.liftsPerMinute, task.duration, handsLow),
    coupling: couplingMultiplier(task.grip, handsLow),
  };
  const { horizontal, vertical, distance, asymmetry, frequency, coupling } = multipliers;
  return { multipliers, limit: LOAD_KG * horizontal * vertical * distance * asymmetry * frequency * coupling };
}

/** LI. Above 1 the lift is a risk for some, above 3 for nearly all (p. 20). Infinity where no lift is allowed. */
export function liftingIndex(load: number, limit: number): number {
  return limit > 0 ? load / limit : Number.POSITIVE_INFINITY;
}

/**
 * H in cm as the manual estimates it for a load held against the body: half its depth, plus 20 cm, or 25 cm with the hands
 * below 25 cm. P. 8.
 */
export const horizontalEstimate = (depth: number, vertical: number): number => (vertical >= 25 ? 20 : 25) + depth / 2;

/** What the equation does not speak of (p. 6, 1.2): shown wherever its answer is. */
export const LIFT_SCOPE = [
  'one-handed lifts',
  'lifting while seated or kneeling',
  'unstable loads',
  'carrying more than a step or two',
  'work of more than 8 hours',
  'slippery floors',
] as const;
