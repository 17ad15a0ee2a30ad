/**
 * A drummer's sizes: from the published tables by sex and percentile, and what a tape measured in its place.
 *
 * Between the published percentiles each half is taken for one of a normal distribution, which gives the published values back at 5, 50
 * and 95 and is a guess outside of these. Nobody is of one percentile in every size: such a body is a stand-in, and a tape knows better.
 *
 * Units: mm.
 */
import { kept } from '../keep.ts';
import { own } from '../plan/places.ts';
import type { Drummer, Plan, Setup } from '../plan/schema.ts';
import { BODY_TABLE, MEASURES, type Measure } from './tables.ts';

export type Side = 'left' | 'right';

export interface Sizes extends Readonly<Record<Measure, number>> {
  readonly shoeMm: number;
  readonly stickMm: number;
}

/**
 * The allowance for a shoe's height that is usual beside such tables; from memory. That the same is added to the foot's length and half
 * of it to the breadth is common practice, no source.
 */
const USUAL_SHOE_MM = 25;
/** 16 in: the length most sticks have (common practice, no source). */
const USUAL_STICK_MM = 406;

/** Where nobody is named: the middle of the men in the tables, whose weight counts already where nobody weighed the drummer. */
const TYPICAL: Sized = { sex: 'man', percentile: 50 };

/** How many standard deviations a share of everyone lies above the middle. Within 4.5e-4. Source: Abramowitz and Stegun (1964), 26.2.23. */
export function deviationsAt(share: number): number {
  const t = Math.sqrt(-2 * Math.log(Math.min(share, 1 - share)));
  const over = 2.515517 + t * (0.802853 + t * 0.010328);
  const under = 1 + t * (1.432788 + t * (0.189269 + t * 0.001308));
  return Math.sign(share - 0.5) * (t - over / under);
}

const AT_95 = deviationsAt(0.95);

/** One size of a percentile, 1 to 99. */
export function sizeAt(measure: Measure, sex: Drummer['sex'], percentile: number): number {
  const [low, middle, high] = BODY_TABLE[measure][sex];
  const share = percentile === 50 ? 0 : deviationsAt(percentile / 100) / AT_95;
  return middle + share * (share < 0 ? middle - low : high - middle);
}

type Sized = Pick<Drummer, 'sex' | 'percentile' | 'measuredMm' | 'shoeMm' | 'stickMm'>;

const sizesOf = kept(({ sex, percentile, measuredMm, shoeMm, stickMm }: Sized): Sizes => {
  const sizes = MEASURES.map((measure) => [measure, measuredMm?.[measure] ?? sizeAt(measure, sex, percentile)]);
  return {
    ...(Object.fromEntries(sizes) as Record<Measure, number>),
    shoeMm: shoeMm ?? USUAL_SHOE_MM,
    stickMm: stickMm ?? USUAL_STICK_MM,
  };
});

export interface Sitter {
  /** Null: a typical one, for the setup names nobody. */
  readonly drummer: Drummer | null;
  readonly sizes: Sizes;
  /** The hand that leads in this setup; null: nobody says, and the kit does. */
  readonly handed: Side | null;
}

/** Whom a setup is set for. */
export function sitterOf(plan: Plan, { drummer: id, otherHand }: Setup): Sitter {
  const drummer = (id !== undefined && own(plan.drummers ?? {}, id)) || null;
  const handed = drummer && (otherHand ? (drummer.handed === 'left' ? 'right' : 'left') : drummer.handed);
  return { drummer, sizes: sizesOf(drummer ?? TYPICAL), handed };
}
