/**
 * Sizes and mass of a piece of gear, with a tape's or a scale's value in place of the typical one.
 *
 * A measured value goes into the plan's own gear under the same id, so every piece of that gear has it.
 */
import { massKgOf } from '../../../gear/catalogue.ts';
import type { Gear } from '../../../gear/schema.ts';
import { planSchema } from '../../../plan/schema.ts';
import { schemaAt } from '../fields/bounds.ts';
import type { FieldTable, NumberRow } from '../fields/rows.ts';

interface SizeField {
  readonly field: string;
  readonly label: string;
}

const SIZES: Partial<Record<Gear['kind'], readonly SizeField[]>> = {
  bassDrum: [
    { field: 'diameterMm', label: 'Diameter' },
    { field: 'depthMm', label: 'Depth' },
    { field: 'hoopMm', label: 'Hoop beyond shell' },
  ],
  drum: [
    { field: 'diameterMm', label: 'Diameter' },
    { field: 'depthMm', label: 'Depth' },
    { field: 'hoopMm', label: 'Hoop beyond shell' },
  ],
  cymbal: [
    { field: 'diameterMm', label: 'Diameter' },
    { field: 'profileMm', label: 'Profile' },
  ],
  pedal: [
    { field: 'boardLengthMm', label: 'Board length' },
    { field: 'boardWidthMm', label: 'Board width' },
    { field: 'plateWidthMm', label: 'Plate width' },
  ],
  throne: [
    { field: 'widthMm', label: 'Seat width' },
    { field: 'depthMm', label: 'Seat depth' },
    { field: 'baseRadiusMm', label: 'Leg reach' },
  ],
  stageItem: [
    { field: 'widthMm', label: 'Width' },
    { field: 'depthMm', label: 'Depth' },
    { field: 'heightMm', label: 'Height' },
  ],
};

/** The gear with one value measured. A stage item drawn round stays round. */
export function withMeasured(gear: Gear, field: string, value: number): Gear {
  const measured = [...new Set([...(gear.measured ?? []), field])].sort();
  return { ...gear, [field]: value, measured } as Gear;
}

const isMeasured = (gear: Gear, field: string): boolean => (gear.measured ?? []).includes(field);

/** The fields of one kind of gear. */
export const sizesOf = ({ kind }: Gear) =>
  ({
    schema: schemaAt(planSchema, `gear.${kind}`),
    record: (gear) => gear,
    write: (gear, [field], value) => ({ type: 'setGear', gear: withMeasured(gear, field, value as number) }),
    sections: {
      sizes: [
        ...(SIZES[kind] ?? []).map(
          ({ field, label }): NumberRow<Gear> => ({
            path: field,
            label,
            note: (gear) => (isMeasured(gear, field) ? 'measured' : undefined),
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
  }) satisfies FieldTable<Gear>;
