/**
 * The pull list as a table for a spreadsheet: one record a part of a unit, in the order of loading in. What belongs to a unit
 * (its size, its lift) stands in each of its records, so that a sort or a filter loses nothing.
 *
 * Units: in the columns' names. Lengths to a thousandth of a mm, masses to a gram.
 */
import type { Checked } from '../checks/run.ts';
import type { Layout } from '../layout/layout.ts';
import { type Hands, type PullRow, type PullUnit, pullList, type Stock } from '../lists/packing.ts';
import type { Plan } from '../plan/schema.ts';
import { loadName } from '../words/names.ts';
import { insteadWords, partLabel } from '../words/packingWords.ts';
import { type CsvValue, toCsv } from './csv.ts';

export interface PullCsvOptions {
  readonly stock?: Stock | null;
}

const HANDS: Readonly<Record<Hands, string>> = {
  one: 'one person',
  two: 'two people',
  takeApart: 'take apart first',
  unknown: 'not all weighed',
};

const to = (value: number | null, digits: number): number | null =>
  value === null ? null : Number(value.toFixed(digits));

interface Line {
  readonly plan: Plan;
  readonly setupId: string;
  readonly currency: string;
  readonly unit: PullUnit;
  readonly row: PullRow;
}

const COLUMNS: readonly (readonly [string, (line: Line) => CsvValue])[] = [
  ['load_in', ({ unit }) => unit.number],
  ['unit', ({ plan, setupId, unit }) => loadName(plan, setupId, unit)],
  ['part', ({ plan, row }) => partLabel(row.part, plan)],
  ['kind', ({ row }) => row.part.kind],
  ['gear', ({ row }) => row.part.gear],
  ['count', ({ row }) => row.part.count],
  ['cut_length_mm', ({ row }) => to(row.part.cutLength, 3)],
  ['bend_radius_mm', ({ row }) => to(row.part.bend?.radiusMm ?? null, 3)],
  ['straight_ends_mm', ({ row }) => to(row.part.bend?.straightEndsMm ?? null, 3)],
  ['mass_each_kg', ({ row }) => to(row.part.mass, 3)],
  ['mass_total_kg', ({ row }) => to(row.part.totalMass, 3)],
  ['mass_from', ({ row }) => row.part.massFrom],
  ['price_each', ({ row }) => to(row.price, 2)],
  ['price_total', ({ row }) => to(row.totalPrice, 2)],
  ['currency', ({ row, currency }) => (row.price === null ? null : currency)],
  ['owned', ({ row }) => row.owned],
  ['missing', ({ row }) => row.missing],
  ['from_stock', ({ plan, row }) => insteadWords(row.instead, plan)],
  ['note', ({ row }) => row.note],
  ['unit_length_mm', ({ unit }) => to(unit.size?.lengthMm ?? null, 0)],
  ['unit_width_mm', ({ unit }) => to(unit.size?.widthMm ?? null, 0)],
  ['unit_height_mm', ({ unit }) => to(unit.size?.heightMm ?? null, 0)],
  ['unit_known_mass_kg', ({ unit }) => to(unit.knownMass, 3)],
  ['unit_parts_not_weighed', ({ unit }) => unit.unmeasured],
  ['unit_lift', ({ unit }) => (unit.lift ? HANDS[unit.lift.hands] : HANDS.unknown)],
  ['one_person_limit_kg', ({ unit }) => to(unit.lift?.onePerson ?? null, 1)],
  ['two_people_limit_kg', ({ unit }) => to(unit.lift?.twoPeople ?? null, 1)],
];

/** Throws: RangeError when the plan has no such setup. */
export function pullCsv(
  plan: Plan,
  setupId: string,
  layout: Layout,
  checked: Checked,
  { stock = null }: PullCsvOptions = {},
): string {
  const { units, currency } = pullList(plan, setupId, layout, checked, stock);
  const records = units.flatMap((unit) =>
    unit.rows.map((row) => COLUMNS.map(([, of]) => of({ plan, setupId, currency, unit, row }))),
  );
  return toCsv(
    COLUMNS.map(([name]) => name),
    records,
  );
}
