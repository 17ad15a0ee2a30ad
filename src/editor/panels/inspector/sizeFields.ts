/**
 * Sizes and mass of a piece of gear, with a tape's or a scale's value in place of the typical one.
 *
 * A measured value goes into the plan's own gear under the same id, so every piece of that gear has it.
 */
import { massKgOf } from '../../../gear/catalogue.ts';
import { type Placeable, type RangeField, rangeFields, sizeFields } from '../../../gear/kinds.ts';
import type { Gear } from '../../../gear/schema.ts';
import { planSchema } from '../../../plan/schema.ts';
import { schemaAt } from '../fields/bounds.ts';
import { type FieldTable, type NumberRow, patched } from '../fields/rows.ts';

const withMark = (gear: Gear, field: string): Gear => ({
  ...gear,
  measured: [...new Set([...(gear.measured ?? []), field])].sort(),
});

/** The gear with one value measured. A stage item drawn round stays round. */
const withMeasured = (gear: Gear, field: string, value: number): Gear =>
  ({ ...withMark(gear, field), [field]: value }) as Gear;

/** The gear with one end of a range measured: 0 its least, 1 its most. */
const withEnd = (gear: Gear, field: string, [least, most]: RangeField['value'], end: 0 | 1, measured: number): Gear => {
  const range = end === 0 ? [measured, most] : [least, measured];
  return { ...withMark(gear, field), ...patched(gear, field.split('.'), range) } as Gear;
};

const isMeasured = (gear: Gear, field: string): boolean => (gear.measured ?? []).includes(field);

const rangeIn = (gear: Placeable, { field, value }: RangeField): RangeField['value'] =>
  rangeFields(gear).find((one) => one.field === field)?.value ?? value;

/** One end of what gear can be set to; the other end bounds it. */
const rangeRow = (range: RangeField, end: 0 | 1): NumberRow<Placeable> => ({
  path: `${range.field}.${end}`,
  label: `${range.word}, ${end === 0 ? 'least' : 'most'}`,
  measure: 'length',
  clear: false,
  note: (one) => (isMeasured(one, range.field) ? 'measured' : undefined),
  value: (one) => rangeIn(one, range)[end],
  bounds: (one) => (end === 0 ? { most: rangeIn(one, range)[1] } : { least: rangeIn(one, range)[0] }),
  set: (one, value) => ({ type: 'setGear', gear: withEnd(one, range.field, rangeIn(one, range), end, value) }),
});

/** The fields of one kind of gear. */
export const sizesOf = (gear: Placeable) =>
  ({
    schema: schemaAt(planSchema, `gear.${gear.kind}`),
    record: (one) => one,
    write: (one, [field], value) => ({ type: 'setGear', gear: withMeasured(one, field, value as number) }),
    sections: {
      sizes: [
        ...sizeFields(gear).map(
          ({ field, word }): NumberRow<Placeable> => ({
            path: field,
            label: word,
            clear: false,
            note: (one) => (isMeasured(one, field) ? 'measured' : undefined),
          }),
        ),
        ...rangeFields(gear).flatMap((range) => ([0, 1] as const).map((end) => rangeRow(range, end))),
        {
          path: 'massKg',
          label: 'Mass',
          note: (gear) => (isMeasured(gear, 'massKg') ? 'measured' : massKgOf(gear) === null ? 'not known' : undefined),
          value: massKgOf,
          clear: false,
        },
      ],
    },
  }) satisfies FieldTable<Placeable>;
