/** The answer of buildFrom.ts in words, one line for each part: for the command line and the page alike. */
import type { PartRow, PartUse } from '../checks/parts.ts';
import { gearOf } from '../gear/catalogue.ts';
import type { Inventory } from '../plan/inventory.ts';
import { own } from '../plan/places.ts';
import type { Plan } from '../plan/schema.ts';
import type { BuildAnswer, Missing, Served } from '../solve/buildFrom.ts';
import { formatAngle, formatLength } from '../units.ts';

/** Tapes read no finer than this. */
const SAME_MM = 0.5;

export interface BuildWords {
  /** Whether it can be built, in a sentence. */
  readonly verdict: string;
  /** What is cut, or stands in for what the plan names. */
  readonly changed: readonly string[];
  /** What is missing, and what would have to move for what is left over. */
  readonly missing: readonly string[];
  readonly toBuy: readonly string[];
  /** Null where no price is known. */
  readonly cost: string | null;
}

export function buildWords(plan: Plan, setupId: string, inventory: Inventory, answer: BuildAnswer): BuildWords {
  const gear = { ...plan.gear, ...(inventory.gear ?? {}) };
  const currency = inventory.currency ?? '';
  const named = (id: string) => gearOf(gear, id)?.name ?? id;
  const mm = (value: number) => formatLength(value, plan.units);
  const pieceOf = ({ piece }: PartUse) => own(plan.setups[setupId].pieces, piece)?.name || piece;
  /** With its length, where its name does not say it. */
  const part = ({ gear: id, label, cutLength }: Pick<PartRow, 'gear' | 'label' | 'cutLength'>) =>
    cutLength === null || label === gearOf(plan.gear, id)?.name ? label : `${label} of ${mm(cutLength)}`;
  const servedLine = ({ need, gear: owned, cutToMm }: Served): string => {
    const cut = cutToMm === null ? '' : `, cut to ${mm(cutToMm)}`;
    return `${pieceOf(need)}: ${named(owned)} for ${need.label}${cut}`;
  };
  const missingLine = ({ need, nearest }: Missing): string => {
    const line = `${pieceOf(need)}: ${part(need)}`;
    if (!nearest) return line;
    const { shortfall } = nearest;
    if (need.cutLength !== null) return `${line}; ${named(nearest.gear)} is ${mm(shortfall.mm)} too short`;
    const ways: string[] = [];
    const way = (value: number, more: string, less: string) => {
      if (Math.abs(value) >= SAME_MM) ways.push(`${mm(Math.abs(value))} ${value > 0 ? more : less}`);
    };
    way(shortfall.out, 'away from its clamp', 'nearer to its clamp');
    way(shortfall.up, 'up', 'down');
    if (shortfall.tiltDeg > 0) ways.push(`${formatAngle(shortfall.tiltDeg)} flatter`);
    return ways.length === 0
      ? line
      : `${line}; ${named(nearest.gear)} would do if the piece went ${ways.join(' and ')}`;
  };
  const price = (each: number | null) => (each === null ? '' : ` at ${each} ${currency}`.trimEnd());
  const needed = answer.missing.length + answer.served.length;
  return {
    verdict: answer.buildable
      ? 'It can be built: nothing is missing.'
      : `It cannot be built: ${answer.missing.length} of ${needed} parts are missing.`,
    changed: answer.served.filter(({ other, cutToMm }) => other || cutToMm !== null).map(servedLine),
    missing: answer.missing.map(missingLine),
    toBuy: answer.toBuy.map(({ part: row, price: each }) => `${row.count} x ${part(row)}${price(each)}`),
    cost: answer.cost > 0 ? `${answer.cost} ${currency}`.trimEnd() : null,
  };
}
