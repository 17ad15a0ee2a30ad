/** What somebody who begins a plan says of the kit: how much of what, on which base, for whom. */
import type { Side } from '../../drummer/sizes.ts';
import type { Drummer } from '../../plan/schema.ts';

export const STARTER_BASES = ['stands', 'straight', 'curved', 'front'] as const;
export type StarterBase = (typeof STARTER_BASES)[number];

export interface StarterWish {
  /** Mounted toms, floor toms (1 to 3 of each), and cymbals (2 to 8, the hi-hats count as one). */
  readonly up: number;
  readonly down: number;
  readonly cymbals: number;
  readonly base: StarterBase;
  /** Over the bass drum, or moved to the hi-hat's side. */
  readonly toms: 'centred' | 'offset';
  readonly handed: Side;
  readonly pedal: 'single' | 'double';
  /** On the smallest usual riser that takes it, or on the floor. */
  readonly riser: boolean;
}

export const USUAL_WISH: StarterWish = {
  up: 2,
  down: 1,
  cymbals: 4,
  base: 'straight',
  toms: 'centred',
  handed: 'right',
  pedal: 'single',
  riser: false,
};

/** Whom a kit is laid out for where nobody is named: the middle of the men in the tables. */
export const typicalDrummer = (handed: Side): Drummer => ({
  id: 'drummer-1',
  name: 'Typical drummer',
  sex: 'man',
  percentile: 50,
  handed,
});
