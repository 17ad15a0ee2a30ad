/**
 * What the power drops of a setup give and what hangs on them.
 *
 * Units: V, W, A. A current is the least that a load takes: its power by its voltage, as for a load without a shift of phase.
 */
import { gearOf } from '../gear/catalogue.ts';
import type { Item, Plan } from '../plan/schema.ts';

interface PowerDrop {
  readonly item: Item;
  readonly name: string;
  /** Null: not given. */
  readonly volts: number | null;
  readonly loadW: number | null;
  readonly leastA: number | null;
}

interface PowerSum {
  readonly volts: number;
  readonly loadW: number;
  readonly leastA: number;
}

export interface Power {
  readonly drops: readonly PowerDrop[];
  /** Of each voltage on which a load is known, the lowest first. */
  readonly sums: readonly PowerSum[];
  readonly loadW: number;
  /** Drops of which no load is known. */
  readonly unknown: number;
}

/** `items`: the drops (stageItems() of use 'power'). */
export function powerOf(plan: Plan, items: readonly Item[]): Power {
  const byVolts = new Map<number, number>();
  const drops = items.map((item): PowerDrop => {
    const { volts = null, loadW = null } = item.power ?? {};
    if (volts !== null && loadW !== null) byVolts.set(volts, (byVolts.get(volts) ?? 0) + loadW);
    const name = item.name || (gearOf(plan.gear, item.gear)?.name ?? '');
    return { item, name, volts, loadW, leastA: volts === null || loadW === null ? null : loadW / volts };
  });
  return {
    drops,
    sums: [...byVolts].sort(([a], [b]) => a - b).map(([volts, loadW]) => ({ volts, loadW, leastA: loadW / volts })),
    loadW: drops.reduce((sum, { loadW }) => sum + (loadW ?? 0), 0),
    unknown: drops.filter(({ loadW }) => loadW === null).length,
  };
}
