/**
 * Sizes and mass of a piece of gear, with a tape's or a scale's value in place of the typical one.
 *
 * A measured value goes into the plan's own gear under the same id, so every piece of that gear has it.
 */
import { massKgOf } from '../../../gear/catalogue.ts';
import { type Placeable, sizeFields } from '../../../gear/kinds.ts';
import type { Gear } from '../../../gear/schema.ts';
import { planSchema } from '../../../plan/schema.ts';
import { schemaAt } from '../fields/bounds.ts';
import type { FieldTable, NumberRow } from '../fields/rows.ts';

/** The gear with one value measured. A stage item drawn round stays round. */
function withMeasured(gear: Gear, field: string, value: number): Gear {
  const measured = [...new Set([...(gear.measured ?? []), field])].sort();
  return { ...gear, [field]: value, measured } as Gear;
}

const isMeasured = (gear: Gear, field: string): boolean => (gear.measured ?? []).includes(field);

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
