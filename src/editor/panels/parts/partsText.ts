/** The parts of a setup in words: for the table, and as text to send or print. */
import type { PartRow, Parts, PartsUnit } from '../../../checks/parts.ts';
import { own } from '../../../plan/places.ts';
import type { Plan } from '../../../plan/schema.ts';
import { formatLength, formatMass } from '../../../units.ts';
import { pieceName } from '../../../words/names.ts';
import { priceText } from '../fields/measures.ts';

export const NOT_WEIGHED = 'not weighed';

/** Cut length, and the bend's radius where the tube is bent; empty for what is not cut. */
export function cutText({ cutLength, bend }: PartRow, { units }: Plan): string {
  if (cutLength === null) return '';
  const bent = bend === null ? '' : `, bent to ${formatLength(bend.radiusMm, units)}`;
  return `${formatLength(cutLength, units)}${bent}`;
}

/** Of all alike together. End caps weigh a few grams and are left out of sums. */
export function massText({ kind, totalMass }: PartRow, { units }: Plan): string {
  if (totalMass !== null) return formatMass(totalMass, units);
  return kind === 'endCap' ? '' : NOT_WEIGHED;
}

/** `62.4 lb, and 3 parts not weighed`. */
export function sumText({ knownMass, unmeasured }: Pick<PartsUnit, 'knownMass' | 'unmeasured'>, plan: Plan): string {
  const known = formatMass(knownMass, plan.units);
  if (unmeasured === 0) return known;
  return `${known}, and ${unmeasured} ${unmeasured === 1 ? 'part' : 'parts'} ${NOT_WEIGHED}`;
}

/**
 * What the rows with a price of the user's own cost, and how many parts have none; empty where no price is known.
 * `412.50 EUR, 3 parts without a price`.
 */
export function costText(rows: readonly PartRow[], { partNotes = {}, currency = '' }: Plan): string {
  let cost = 0;
  let priced = 0;
  let without = 0;
  for (const { gear, count } of rows) {
    const price = own(partNotes, gear)?.price;
    if (price === undefined) without += count;
    else {
      cost += price * count;
      priced += count;
    }
  }
  if (priced === 0) return '';
  const sum = `${priceText(cost)} ${currency}`.trimEnd();
  return without === 0 ? sum : `${sum}, ${without} ${without === 1 ? 'part' : 'parts'} without a price`;
}

const counted = (rows: readonly PartRow[]): number => rows.reduce((sum, { count }) => sum + count, 0);

function rowLine(row: PartRow, plan: Plan): string {
  return [`${row.count} x ${row.label}`, cutText(row, plan), massText(row, plan)]
    .filter((word) => word !== '')
    .join('; ');
}

/** One line a part under each unit that travels, then the sum. Tables paste badly into messages; lines do not. */
export function partsText(plan: Plan, setupId: string, parts: Parts): string {
  const lines = [`${plan.name}, ${plan.setups[setupId].name}: parts`];
  for (const unit of parts.units)
    lines.push(
      '',
      `${pieceName(plan, setupId, unit.id)} (${sumText(unit, plan)})`,
      ...unit.parts.map((row) => `  ${rowLine(row, plan)}`),
    );
  lines.push('', `Together: ${counted(parts.all)} parts, ${sumText(parts, plan)}`);
  return lines.join('\n');
}
