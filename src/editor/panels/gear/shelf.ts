/**
 * The gear drawer's contents: what can be put on the drawing, in the order a kit is built, and found by a few letters.
 * Tubes, clamps and arms are parts of racks and mounts; they are chosen there.
 */
import { CATALOGUE } from '../../../gear/catalogue.ts';
import type { Gear, GearKind } from '../../../gear/schema.ts';
import type { Plan } from '../../../plan/schema.ts';
import { type DisplayUnit, formatLength } from '../../../units.ts';
import { groupBy } from '../shared/groupBy.ts';

export type Placeable = Extract<
  Gear,
  { kind: 'bassDrum' | 'drum' | 'cymbal' | 'pedal' | 'throne' | 'stand' | 'stageItem' }
>;

const PLACEABLE: ReadonlySet<GearKind> = new Set([
  'bassDrum',
  'drum',
  'cymbal',
  'pedal',
  'throne',
  'stand',
  'stageItem',
]);
export const isPlaceable = (gear: Gear): gear is Placeable => PLACEABLE.has(gear.kind);

const USE_WORDS: Readonly<Record<string, string>> = {
  snare: 'Snares',
  rackTom: 'Toms',
  floorTom: 'Floor toms',
  hiHat: 'Hi-hats',
  crash: 'Crashes',
  ride: 'Rides',
  splash: 'Splashes',
  china: 'Chinas',
  stack: 'Stacks',
};

/** The heading a piece of gear stands under. */
export function shelfOf(gear: Placeable): string {
  switch (gear.kind) {
    case 'bassDrum':
      return 'Bass drums';
    case 'drum':
    case 'cymbal':
      return USE_WORDS[gear.use];
    case 'pedal':
      return 'Pedals';
    case 'throne':
      return 'Thrones';
    case 'stand':
      return 'Stands';
    case 'stageItem':
      return 'On the stage';
  }
}

/** The order in which a kit is set up. */
const SHELVES = [
  'Bass drums',
  'Snares',
  'Toms',
  'Floor toms',
  'Hi-hats',
  'Crashes',
  'Rides',
  'Splashes',
  'Chinas',
  'Stacks',
  'Pedals',
  'Thrones',
  'Stands',
  'On the stage',
];

/** The plan's own gear first, where it has the same id as the catalogue's in its stead. */
export function allGear(own: Readonly<Record<string, Gear>>, catalogue: readonly Gear[]): Gear[] {
  return [...Object.values(own), ...catalogue.filter(({ id }) => !Object.hasOwn(own, id))];
}

/** Lower case without accents, so that "cafe" finds "café". */
const plain = (text: string) => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

export interface Shelf {
  readonly name: string;
  readonly gear: readonly Placeable[];
}

/** Everything whose name, heading or note holds every word of the query, by shelf. */
export function shelves(gear: readonly Gear[], query: string): Shelf[] {
  const words = plain(query).split(/\s+/).filter(Boolean);
  const found = gear.filter(isPlaceable).filter((one) => {
    const text = plain(`${one.name} ${shelfOf(one)} ${one.note ?? ''}`);
    return words.every((word) => text.includes(word));
  });
  const byShelf = groupBy(found, shelfOf);
  return SHELVES.filter((name) => byShelf.has(name)).map((name) => ({ name, gear: byShelf.get(name)! }));
}

/** Its outer size on the floor, as a tape measures it. */
export function sizeText(gear: Gear, units: DisplayUnit): string {
  const mm = (value: number) => formatLength(value, units);
  switch (gear.kind) {
    case 'bassDrum':
    case 'drum':
      return `⌀ ${mm(gear.diameterMm)} × ${mm(gear.depthMm)}`;
    case 'cymbal':
      return `⌀ ${mm(gear.diameterMm)}`;
    case 'pedal':
      return `${mm(gear.plateWidthMm)} × ${mm(gear.boardLengthMm)}`;
    case 'throne':
      return `feet ⌀ ${mm(2 * gear.baseRadiusMm)}`;
    case 'stand':
      return gear.base.form === 'none' ? 'no legs' : `feet ⌀ ${mm(2 * gear.base.radiusMm)}`;
    case 'stageItem':
      return gear.shape === 'round' ? `⌀ ${mm(gear.widthMm)}` : `${mm(gear.widthMm)} × ${mm(gear.depthMm)}`;
    case 'tube':
      return `⌀ ${mm(gear.outsideMm)} × ${mm(gear.cutLengthMm)}${gear.bendRadiusMm === undefined ? '' : ', curved'}`;
    case 'foot':
      return mm(gear.lengthMm);
    case 'deck':
      return `${mm(gear.widthMm)} × ${mm(gear.depthMm)}`;
    case 'clamp':
      return `${mm(gear.widthMm)} of tube`;
    case 'boom':
    case 'lArm':
      return `arm to ${mm(gear.armMm[1])}`;
    case 'platform':
      return `${gear.sockets.length} sockets`;
    case 'link':
      return `to ${mm(gear.lengthMm[1])}`;
  }
}

/** Typical, measured in part, or measured throughout the sizes that the drawing uses. */
export function measuredMark(gear: Gear): { readonly mark: 'typical' | 'measured'; readonly text: string } {
  const fields = gear.measured ?? [];
  if (fields.length === 0) return { mark: 'typical', text: 'typical size' };
  return { mark: 'measured', text: `measured: ${fields.map(fieldWord).join(', ')}` };
}

const FIELD_WORDS: Readonly<Record<string, string>> = {
  diameterMm: 'diameter',
  depthMm: 'depth',
  massKg: 'mass',
  hoopMm: 'hoop',
  playHeightMm: 'playing height',
  profileMm: 'profile',
  boardLengthMm: 'board length',
  boardWidthMm: 'board width',
  plateWidthMm: 'plate width',
  baseRadiusMm: 'base radius',
  widthMm: 'width',
  heightMm: 'height',
};
export const fieldWord = (field: string): string => FIELD_WORDS[field] ?? field.replace(/(Mm|Kg|Deg)$/, '');

/** The plan's own gear and the catalogue, the plan's own first. */
export const gearOfPlan = (plan: Plan) => allGear(plan.gear, CATALOGUE);
