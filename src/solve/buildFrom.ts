/**
 * Can this setup be built from what somebody owns? Every part that the setup needs is held against every owned part; the
 * assignment with the fewest needs left, and then the least waste, is the answer. What serves what: serves.ts.
 *
 * Kinds of parts do not stand in for one another, so that each kind is a small assignment of its own; the sums are the same.
 *
 * Units: mm. Exact: as assignment.ts, wastes to a thousandth of a mm.
 */
import { type PartRow, type PartUse, partRows, partUses } from '../checks/parts.ts';
import { grouped, sumOf } from '../gather.ts';
import type { Layout } from '../layout/layout.ts';
import type { Inventory, OwnedPart } from '../plan/inventory.ts';
import type { Plan } from '../plan/schema.ts';
import { assign } from './assignment.ts';
import { Serving, type Shortfall } from './serves.ts';

/** So many alike: an entry of the inventory. */
export interface OwnedEntry {
  readonly index: number;
  readonly part: OwnedPart;
}

export interface Served {
  readonly need: PartUse;
  /** Which entry of the inventory gives it. */
  readonly entry: number;
  readonly gear: string;
  readonly wasteMm: number;
  /** A tube that must be cut, to this length. */
  readonly cutToMm: number | null;
  /** Not the gear that the plan names. */
  readonly other: boolean;
}

/** A need that nothing owned is left for. */
export interface Missing {
  readonly need: PartUse;
  /** What is left over of the same kind that comes nearest, and what would have to move or be longer; null: nothing is left. */
  readonly nearest: { readonly entry: number; readonly gear: string; readonly shortfall: Shortfall } | null;
}

export interface BuildAnswer {
  readonly buildable: boolean;
  readonly served: readonly Served[];
  readonly missing: readonly Missing[];
  /** The missing parts counted, with what the inventory says one of them costs. */
  readonly toBuy: readonly { readonly part: PartRow; readonly price: number | null }[];
  /** Of those with a price. */
  readonly cost: number;
  readonly wasteMm: number;
}

/** Bars and uprights are cut from the same stock. */
const groupOf = ({ kind }: PartUse): string => (kind === 'upright' ? 'bar' : kind);

/** Inputs: a setup that the plan holds, its layout, and an inventory whose parts are known (plan/inventory.ts). */
export function buildFrom(plan: Plan, setupId: string, layout: Layout, inventory: Inventory): BuildAnswer {
  const serving = new Serving(plan, setupId, layout, inventory.gear ?? {});
  const served: Served[] = [];
  const missing: Missing[] = [];
  let wasteMm = 0;
  for (const needs of grouped(partUses(plan, setupId), groupOf).values()) {
    const entries = inventory.parts
      .map((part, index): OwnedEntry => ({ index, part }))
      .filter(({ part }) => part.count > 0 && serving.isOfKind(part, needs[0].kind));
    // An entry's parts are alike: one column for each, but never more than could be used.
    const units = entries.flatMap((entry) =>
      Array.from({ length: Math.min(entry.part.count, needs.length) }, () => entry),
    );
    const wastes = needs.map((need) => {
      const byEntry = new Map(entries.map((entry) => [entry, serving.wasteMm(need, entry.part)]));
      return units.map((entry) => byEntry.get(entry) ?? Number.POSITIVE_INFINITY);
    });
    const found = assign(wastes);
    const left = new Map(entries.map((entry) => [entry, entry.part.count]));
    for (const j of found.part) if (j !== null) left.set(units[j], (left.get(units[j]) ?? 0) - 1);
    wasteMm += found.waste;
    needs.forEach((need, i) => {
      const j = found.part[i];
      if (j === null) missing.push({ need, nearest: nearestOf(serving, need, left) });
      else {
        const { index: entry, part } = units[j];
        const { gear } = part;
        const cutToMm = serving.cutTo(need, part);
        served.push({ need, entry, gear, wasteMm: wastes[i][j], cutToMm, other: gear !== need.gear });
      }
    });
  }
  const wanted = partRows(missing.map(({ need }) => need));
  const toBuy = wanted.map((part) => ({ part, price: priceOf(inventory, part.gear) }));
  return {
    buildable: missing.length === 0,
    served,
    missing,
    toBuy,
    cost: sumOf(toBuy, ({ part, price }) => part.count * (price ?? 0)),
    wasteMm,
  };
}

const priceOf = ({ parts }: Inventory, gear: string): number | null =>
  parts.find((part) => part.gear === gear && part.price !== undefined)?.price ?? null;

function nearestOf(serving: Serving, need: PartUse, left: ReadonlyMap<OwnedEntry, number>): Missing['nearest'] {
  let nearest: Missing['nearest'] = null;
  for (const [{ index, part }, count] of left) {
    if (count === 0) continue;
    const shortfall = serving.shortfall(need, part);
    if (shortfall && (nearest === null || shortfall.mm < nearest.shortfall.mm))
      nearest = { entry: index, gear: part.gear, shortfall };
  }
  return nearest;
}
