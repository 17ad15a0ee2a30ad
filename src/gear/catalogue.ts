/**
 * The catalogue: typical gear by id, read once from catalogue.json and checked against the schema as it loads.
 *
 * A plan may bring entries of its own, or the same id with measured values: those win (gearOf).
 */
import * as z from 'zod/mini';
import file from './catalogue.json' with { type: 'json' };
import { type Gear, gearSchema } from './schema.ts';

export const CATALOGUE: readonly Gear[] = z.array(gearSchema).parse(file);

const byId: ReadonlyMap<string, Gear> = new Map(CATALOGUE.map((gear) => [gear.id, gear]));

/** The plan's own entry, else the catalogue's, else undefined. Names like `toString` are no entries. */
export function gearOf(own: Readonly<Record<string, Gear>>, id: string): Gear | undefined {
  return Object.hasOwn(own, id) ? own[id] : byId.get(id);
}

/** The catalogue's gear and the plan's own; an entry of the plan's own takes the place of the catalogue's. */
export const knownGear = (own: Readonly<Record<string, Gear>>): Gear[] => [
  ...CATALOGUE.filter(({ id }) => !Object.hasOwn(own, id)),
  ...Object.values(own),
];

export type TubeMaterial = 'steel' | 'aluminium' | 'stainless';

/**
 * kg/m3. Steel: the value the EN section tables are computed with. Aluminium: OpenStax University Physics vol. 1, 14.1.
 * Stainless: about 8000 for the common 18/8 grades (common practice, no source).
 */
const DENSITY: Readonly<Record<TubeMaterial, number>> = { steel: 7850, aluminium: 2700, stainless: 8000 };

/**
 * Mass of a round tube, from its section: pi (D - t) t times length times density.
 *
 * Units:  mm in, kg out. Bending keeps the length along the centre line, and so the mass.
 * Inputs: a wall of half the outside diameter or more makes a solid bar.
 */
export function tubeMassKg(outsideMm: number, wallMm: number, lengthMm: number, material: TubeMaterial): number {
  const wall = Math.min(wallMm, outsideMm / 2);
  const areaMm2 = Math.PI * (outsideMm - wall) * wall;
  return areaMm2 * lengthMm * DENSITY[material] * 1e-9;
}

/** What one piece of this gear weighs, in kg. A tube's follows from its section and its own cut length; null: nobody measured it. */
export function massKgOf(gear: Gear): number | null {
  if (gear.massKg !== null) return gear.massKg;
  return gear.kind === 'tube' ? tubeMassKg(gear.outsideMm, gear.wallMm, gear.cutLengthMm, gear.material) : null;
}

/** What a piece of this gear weighs where it is placed, kg: a drum on a mount leaves its legs at home, where their mass is known. */
export function placedMassKg(gear: Gear, isMounted: boolean): number | null {
  const whole = massKgOf(gear);
  const legs = gear.kind === 'drum' && isMounted ? (gear.legs?.massKg ?? 0) : 0;
  return whole === null ? null : Math.max(0, whole - legs);
}
