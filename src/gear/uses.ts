/** What the uses of a drum, a cymbal, a stand and a stage item mean. Each table is total: a new use has a row here first. */
import type { BodyKind } from './bodyKinds.ts';
import type { GearOf } from './schema.ts';

type UseOf<K extends 'drum' | 'cymbal' | 'stand' | 'stageItem'> = GearOf<K>['use'];

/**
 * What sounds, and where on the input list it stands: at the kit, in the order of the list, or on the stage. `overhead`: a pair
 * above the kit takes all of them. `other`: it sounds and has no place of its own.
 */
export const SOURCES = {
  bassDrum: 'kit',
  snare: 'kit',
  hiHat: 'kit',
  rackTom: 'kit',
  floorTom: 'kit',
  overhead: 'kit',
  amplifier: 'stage',
  keyboard: 'stage',
  other: 'stage',
} as const;
export type Source = keyof typeof SOURCES;

export const DRUM_USES = {
  snare: { shelf: 'Snares', body: 'snare', source: 'snare' },
  rackTom: { shelf: 'Toms', body: 'tom', source: 'rackTom' },
  floorTom: { shelf: 'Floor toms', body: 'floorTom', source: 'floorTom' },
} as const satisfies Record<UseOf<'drum'>, { shelf: string; body: BodyKind; source: Source }>;

export const CYMBAL_USES = {
  hiHat: { shelf: 'Hi-hats', source: 'hiHat' },
  crash: { shelf: 'Crashes', source: 'overhead' },
  ride: { shelf: 'Rides', source: 'overhead' },
  splash: { shelf: 'Splashes', source: 'overhead' },
  china: { shelf: 'Chinas', source: 'overhead' },
  stack: { shelf: 'Stacks', source: 'overhead' },
} as const satisfies Record<UseOf<'cymbal'>, { shelf: string; source: Source }>;

/** `cymbals`: which of them it holds without a part of the plan. `legless`: it is made without legs too, to be tied to a rack. */
export const STAND_USES = {
  cymbal: { cymbals: 'others', legless: false },
  boom: { cymbals: 'others', legless: false },
  snare: { cymbals: null, legless: true },
  hiHat: { cymbals: 'hiHats', legless: true },
  tom: { cymbals: null, legless: false },
} as const satisfies Record<UseOf<'stand'>, { cymbals: 'hiHats' | 'others' | null; legless: boolean }>;

/** `asks`: what the plan says of it to the venue. `takes`: it takes what sounds, and is on the input list by that. */
export const STAGE_USES = {
  person: { word: 'person', source: null, asks: 'mix' },
  amplifier: { word: 'amplifier', source: 'amplifier', asks: null },
  keyboard: { word: 'keyboard', source: 'keyboard', asks: null },
  microphone: { word: 'microphone', source: null, asks: 'source' },
  di: { word: 'DI box', source: null, asks: 'source' },
  wedge: { word: 'wedge', source: null, asks: 'mix' },
  power: { word: 'power drop', source: null, asks: 'power' },
} as const satisfies Record<
  UseOf<'stageItem'>,
  { word: string; source: Source | null; asks: 'source' | 'mix' | 'power' | null }
>;
