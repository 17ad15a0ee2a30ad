/**
 * What the check of clearances leaves untold: of two pieces that are too close the worst MOST_TOLD have a finding each, and where more
 * lies in a heap than is looked at, pairs are left out. One finding says how many, so that nothing is dropped in silence.
 */
import { MOST_TOLD, worstPairs } from './clearance.ts';
import { checkOf, code, saysOf, type Unmeasured } from './codes.ts';
import type { PairReading } from './pair.ts';

/**
 * `untold`: how many more two pieces are too close or run into each other. `unlooked`: so many pairs of bodies at least, whose boxes and
 * heights are near enough, were not held against each other.
 */
interface Untold extends Unmeasured {
  readonly pieces: readonly [];
  readonly untold: number;
  readonly unlooked: number;
}

export const CROWD = checkOf('crowd', {
  word: 'Clearance',
  caution: null,
  codes: {
    more_pairs: code<Untold>('mm', null, (_, { untold, unlooked }) => {
      const pairs = untold === 1 ? 'more pair of pieces is' : 'more pairs of pieces are';
      const said = untold > 0 ? `${untold} ${pairs} too close. ` : '';
      const left =
        unlooked > 0 ? `Too much stands in one place: ${unlooked} pairs of parts or more are not checked. ` : '';
      return `${said}${left}Move pieces apart, the worst first.`;
    }),
  },
});
const says = saysOf(CROWD);

/** `pairs`, `unlooked`: all that is near, as pairings() has it. */
export function crowd(pairs: readonly PairReading[], unlooked: number): ReturnType<typeof says>[] {
  const untold = pairs.length > MOST_TOLD ? Math.max(0, worstPairs(pairs).length - MOST_TOLD) : 0;
  if (untold === 0 && unlooked === 0) return [];
  return [
    says('more_pairs', {
      // The worst of them are told, and blocked, in any case.
      state: unlooked > 0 ? 'unmeasured' : 'tight',
      pieces: [],
      bodies: [],
      value: null,
      limit: null,
      source: "Legroom's own default",
      at: null,
      untold,
      unlooked,
    }),
  ];
}
