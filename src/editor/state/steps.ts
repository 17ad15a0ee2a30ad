/** How far keys, the grid and drags in steps go: whole centimetres and millimetres, or halves and sixteenths of an inch. */
import { type DisplayUnit, MM_PER_IN } from '../../units.ts';

export interface Steps {
  readonly coarseMm: number;
  readonly fineMm: number;
}

const STEPS: Readonly<Record<DisplayUnit, Steps>> = {
  mm: { coarseMm: 10, fineMm: 1 },
  in: { coarseMm: MM_PER_IN / 2, fineMm: MM_PER_IN / 16 },
};

export const stepsOf = (units: DisplayUnit): Steps => STEPS[units];

/** In words, for help and labels. */
export const COARSE_WORDS = '10 mm or ½ in';
export const FINE_WORDS = '1 mm or 1/16 in';
