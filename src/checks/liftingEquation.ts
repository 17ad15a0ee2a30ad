/**
 * The revised lifting equation: the mass that nearly all healthy workers may lift with both hands under given conditions,
 * RWL = LC x HM x VM x DM x AM x FM x CM, and the lifting index LI = load / RWL.
 *
 * Units:  either cm and kg, or in and lb: the manual gives each its own constants, which are not exact conversions of one
 *         another (LC is 23 kg or 51 lb), so a task is worked in the units it was taken in.
 * Exact:  unrounded multipliers. The manual's own examples round them to two places, results to one.
 * Inputs: finite. Distances and heights >= 0; an angle either way.
 * Source: Waters, Putz-Anderson, Garg, Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110,
 *         revised 9/2021, pp. 7-20.
 */
export type LiftUnits = 'metric' | 'imperial';
export type Duration = 'short' | 'moderate' | 'long';
export type Grip = 'good' | 'fair' | 'poor';

/** One lift. Distances in cm or in, as `units` says; the angle in degrees. */
export interface LiftTask {
  readonly units: LiftUnits;
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
  /** Recommended weight limit, kg or lb; 0 where a multiplier is 0: the equation then allows no lift at all. */
  readonly limit: number;
}

interface Constants {
  readonly load: number;
  readonly leastH: number;
  readonly mostH: number;
  readonly knuckle: number;
  readonly perHeight: number;
  readonly mostV: number;
  readonly leastD: number;
  readonly overD: number;
  readonly mostD: number;
}

const CONSTANTS: Readonly<Record<LiftUnits, Constants>> = {
  metric: {
    load: 23,
    leastH: 25,
    mostH: 63,
    knuckle: 75,
    perHeight: 0.003,
    mostV: 175,
    leastD: 25,
    overD: 4.5,
    mostD: 175,
  },
  imperial: {
    load: 51,
    leastH: 10,
    mostH: 25,
    knuckle: 30,
    perHeight: 0.0075,
    mostV: 70,
    leastD: 10,
    overD: 1.8,
    mostD: 70,
  },
};

/** Table 5's rows, lifts a minute. */
const RATES = [0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15];

/**
 * Table 5's columns. `low`: how many rows hold with the hands below knuckle height (75 cm, 30 in); after them only the
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
  const c = CONSTANTS[task.units];
  const handsLow = task.vertical < c.knuckle;
  const angle = Math.abs(task.asymmetryDeg);
  const multipliers: Multipliers = {
    horizontal: task.horizontal > c.mostH ? 0 : c.leastH / Math.max(task.horizontal, c.leastH),
    vertical: task.vertical > c.mostV ? 0 : 1 - c.perHeight * Math.abs(task.vertical - c.knuckle),
    distance: task.travel > c.mostD ? 0 : 0.82 + c.overD / Math.max(task.travel, c.leastD),
    asymmetry: angle > 135 ? 0 : 1 - 0.0032 * angle,
    frequency: frequencyMultiplier(task.liftsPerMinute, task.duration, handsLow),
    coupling: couplingMultiplier(task.grip, handsLow),
  };
  const product = Object.values(multipliers).reduce((all, each) => all * each, 1);
  return { multipliers, limit: c.load * product };
}

/** LI. Above 1 the lift is a risk for some, above 3 for nearly all (p. 20). Infinity where no lift is allowed. */
export function liftingIndex(load: number, limit: number): number {
  return limit > 0 ? load / limit : Number.POSITIVE_INFINITY;
}

/**
 * H as the manual estimates it for a load held against the body: half its depth, plus 20 cm (8 in), or 25 cm (10 in) with
 * the hands below 25 cm (10 in). P. 8.
 */
export function horizontalEstimate(depth: number, vertical: number, units: LiftUnits): number {
  const [beyond, low, below] = units === 'metric' ? [20, 25, 25] : [8, 10, 10];
  return (vertical >= below ? beyond : low) + depth / 2;
}

/** What the equation does not speak of (p. 6, 1.2): shown wherever its answer is. */
export const LIFT_SCOPE = [
  'one-handed lifts',
  'lifting while seated or kneeling',
  'unstable loads',
  'carrying more than a step or two',
  'work of more than 8 hours',
  'slippery floors',
] as const;
