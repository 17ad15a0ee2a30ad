/** Changes to a stock list, as new lists: counts, lines added and taken away, and what a setup needs taken in as owned. */
import type { PartRow } from '../../../checks/parts.ts';
import { gearOf } from '../../../gear/catalogue.ts';
import { END_CAP_ID } from '../../../gear/kinds.ts';
import type { Gear } from '../../../gear/schema.ts';
import type { Inventory, OwnedPart } from '../../../plan/inventory.ts';
import { withChange } from '../stage/listEdits.ts';

const withParts = (inventory: Inventory, parts: OwnedPart[]): Inventory => ({ ...inventory, parts });

/** Undefined takes a field away. */
export function setPart(inventory: Inventory, index: number, change: Partial<OwnedPart>): Inventory {
  return withParts(
    inventory,
    inventory.parts.map((part, k) => (k === index ? withChange(part, change) : part)),
  );
}

export const removePart = (inventory: Inventory, index: number): Inventory =>
  withParts(inventory, inventory.parts.toSpliced(index, 1));

export const addPart = (inventory: Inventory, gear: string): Inventory =>
  withParts(inventory, [...inventory.parts, { gear, count: 1 }]);

type Cut = Pick<OwnedPart, 'gear' | 'cutLengthMm' | 'bend'>;

/** Length and bend are said only where they are not the gear's own. */
function cutOf({ gear: id, cutLength, bend }: PartRow, gear: Gear): Cut {
  if (gear.kind !== 'tube') return { gear: id };
  const asBent =
    gear.bendRadiusMm === undefined
      ? bend === null
      : bend?.radiusMm === gear.bendRadiusMm && bend.straightEndsMm === (gear.straightEndsMm ?? 0);
  return {
    gear: id,
    ...(cutLength === null || cutLength === gear.cutLengthMm ? {} : { cutLengthMm: cutLength }),
    ...(asBent ? {} : { bend }),
  };
}

const alike = (a: Cut, b: Cut): boolean =>
  a.gear === b.gear &&
  a.cutLengthMm === b.cutLengthMm &&
  (a.bend === undefined) === (b.bend === undefined) &&
  a.bend?.radiusMm === b.bend?.radiusMm &&
  a.bend?.straightEndsMm === b.bend?.straightEndsMm;

/**
 * The list with at least as many of everything as a setup needs: what is listed already is not counted twice. Parts without a
 * gear entry (a joint of unknown make) stay out: a stock list cannot name them. `planGear`: the plan's own entries, which the list
 * takes along, so that it can be read without the plan.
 */
export function withNeeds(
  inventory: Inventory,
  rows: readonly PartRow[],
  planGear: Readonly<Record<string, Gear>>,
): Inventory {
  const parts = [...inventory.parts];
  const gear = { ...inventory.gear };
  for (const row of rows) {
    const known = gearOf({ ...planGear, ...gear }, row.gear);
    if (known === undefined && !END_CAP_ID.test(row.gear)) continue;
    const cut: Cut = known ? cutOf(row, known) : { gear: row.gear };
    if (Object.hasOwn(planGear, row.gear) && !Object.hasOwn(gear, row.gear)) gear[row.gear] = planGear[row.gear];
    const at = parts.findIndex((part) => alike(part, cut));
    if (at < 0) parts.push({ ...cut, count: row.count });
    else if (parts[at].count < row.count) parts[at] = { ...parts[at], count: row.count };
  }
  const next = withParts(inventory, parts);
  return Object.keys(gear).length === 0 ? next : { ...next, gear };
}
