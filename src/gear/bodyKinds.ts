/**
 * What a placed body can be. Clearances are set for pairs of these kinds; layers, marks and drawings tell them apart. The order
 * is that in which a kit is set up.
 */

/**
 * `playing`: it is played or sat on, and kept while bases change. `base`: it carries, and is the variable. `between`: arms, and
 * what a drum stands on by itself, which follow from both. `stage`: beside the kit, in none of its measures; `drummer`: who sits at it, in none either.
 */
export type BodyRole = 'playing' | 'base' | 'between' | 'stage' | 'drummer';

export const BODY_KINDS = {
  bassDrum: { word: 'bass drum', role: 'playing' },
  snare: { word: 'snare', role: 'playing' },
  tom: { word: 'rack tom', role: 'playing' },
  floorTom: { word: 'floor tom', role: 'playing' },
  cymbal: { word: 'cymbal', role: 'playing' },
  pedal: { word: 'pedal', role: 'playing' },
  shaft: { word: 'drive shaft', role: 'playing' },
  throne: { word: 'throne', role: 'playing' },
  stand: { word: 'stand', role: 'base' },
  leg: { word: 'upright', role: 'base' },
  foot: { word: 'T-foot', role: 'base' },
  bar: { word: 'bar', role: 'base' },
  arm: { word: 'arm', role: 'between' },
  link: { word: 'link', role: 'base' },
  spur: { word: 'spur or drum leg', role: 'between' },
  drummer: { word: 'drummer', role: 'drummer' },
  stageItem: { word: 'stage item', role: 'stage' },
} as const satisfies Record<string, { readonly word: string; readonly role: BodyRole }>;

export type BodyKind = keyof typeof BODY_KINDS;

export const BODY_KIND_LIST = Object.keys(BODY_KINDS) as readonly BodyKind[];
