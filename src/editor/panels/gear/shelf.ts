/**
 * The gear drawer's contents: what can be put on the drawing, in the order a kit is built, and found by a few letters.
 * Tubes, clamps and arms are parts of racks and mounts; they are chosen there.
 */
import { CATALOGUE } from '../../../gear/catalogue.ts';
import { isPlaceable, kindOf, type Placeable, SHELVES, sizeWord } from '../../../gear/kinds.ts';
import type { Gear } from '../../../gear/schema.ts';
import type { Plan } from '../../../plan/schema.ts';
import { type DisplayUnit, formatLength } from '../../../units.ts';
import { groupBy } from '../shared/groupBy.ts';

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
    const text = plain(`${one.name} ${kindOf(one).shelf(one)} ${one.note ?? ''}`);
    return words.every((word) => text.includes(word));
  });
  const byShelf = groupBy(found, (one) => kindOf(one).shelf(one));
  return SHELVES.filter((name) => byShelf.has(name)).map((name) => ({ name, gear: byShelf.get(name)! }));
}

/** Its outer size on the floor, as a tape measures it. */
export const sizeText = (gear: Gear, units: DisplayUnit): string =>
  kindOf(gear).sizeText(gear, (value) => formatLength(value, units));

/** Typical, measured in part, or measured throughout the sizes that the drawing uses. */
export function measuredMark(gear: Placeable): { readonly mark: 'typical' | 'measured'; readonly text: string } {
  const fields = gear.measured ?? [];
  if (fields.length === 0) return { mark: 'typical', text: 'typical size' };
  return { mark: 'measured', text: `measured: ${fields.map((field) => sizeWord(gear, field)).join(', ')}` };
}

/** The plan's own gear and the catalogue, the plan's own first. */
export const gearOfPlan = (plan: Plan) => allGear(plan.gear, CATALOGUE);
