/**
 * What the check of clearances leaves untold: of two pieces that are too close the worst MOST_TOLD have a finding each, and where more
 * lies in a heap than is looked at, pairs are left out. One finding says how many, so that nothing is dropped in silence.
 */
import { MOST_TOLD, worstPairs } from './clearance.ts';
import { code, saysOf, type Unmeasured } from './codes.ts';
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

const says = saysOf('crowd', {
  more_pairs: code<Untold>('mm', null),
});

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
