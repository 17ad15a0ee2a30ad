/** The fields of a drummer. */
import { type Sizes, sizesOf } from '../../../drummer/sizes.ts';
import { MEASURES, type Measure } from '../../../drummer/tables.ts';
import { type Drummer, planSchema } from '../../../plan/schema.ts';
import { schemaAt } from '../fields/bounds.ts';
import { type Change, type FieldTable, patched } from '../fields/rows.ts';

export interface DrummerHere {
  readonly drummer: Drummer;
}

const LABELS: Readonly<Record<Measure, string>> = {
  sittingMm: 'Seat to top of head',
  shoulderMm: 'Seat to shoulder',
  shouldersMm: 'Shoulder to shoulder',
  armMm: 'Shoulder to grip',
  forearmMm: 'Elbow to grip',
  hipMm: 'Hips, sitting',
  thighMm: 'Seat to top of thigh',
  buttockKneeMm: 'Back to front of knee',
  kneeMm: 'Floor to top of knee',
  poplitealMm: 'Floor to back of knee',
  footMm: 'Foot length',
  footBreadthMm: 'Foot breadth',
};

/** What holds where nothing was said or measured. */
const usual = ({ drummer: { sex, percentile } }: DrummerHere): Sizes => sizesOf({ sex, percentile });

export const DRUMMER = {
  schema: schemaAt(planSchema, 'drummers'),
  record: ({ drummer }) => drummer,
  write: ({ drummer }, keys, value): Change => {
    const set = (fields: object): Change => ({ type: 'editDrummer', drummer: drummer.id, set: fields });
    if (keys.length < 2 || value !== null) return set(patched(drummer, keys, value));
    const { [keys[1]]: _, ...others } = drummer.measuredMm ?? {};
    return set({ measuredMm: Object.keys(others).length > 0 ? others : null });
  },
  sections: {
    who: [
      { as: 'words', path: 'name', label: 'Name' },
      {
        as: 'choice',
        path: 'sex',
        label: 'Sizes of',
        choices: () => [
          { id: 'man', label: 'Men' },
          { id: 'woman', label: 'Women' },
        ],
      },
      { path: 'percentile', label: 'Percentile' },
      {
        as: 'choice',
        path: 'handed',
        label: 'Leading hand',
        choices: () => [
          { id: 'right', label: 'Right-handed' },
          { id: 'left', label: 'Left-handed' },
        ],
      },
      { as: 'switch', path: 'openHanded', label: 'Plays the hi-hat open-handed' },
      { path: 'shoeMm', label: 'Shoes add', otherwise: (here) => usual(here).shoeMm },
      { path: 'stickMm', label: 'Stick length', otherwise: (here) => usual(here).stickMm },
    ],
    tape: MEASURES.map((measure) => ({
      path: `measuredMm.${measure}`,
      label: LABELS[measure],
      otherwise: (here: DrummerHere) => usual(here)[measure],
    })),
  },
} satisfies FieldTable<DrummerHere>;
