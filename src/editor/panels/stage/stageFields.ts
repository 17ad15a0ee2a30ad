/** The fields of a stage: its name, the rectangle that it is where it is one, its corners, its centre line, its wings. */
import { planSchema, type Stage, stageSchema } from '../../../plan/schema.ts';
import { fieldAt, schemaAt } from '../fields/bounds.ts';
import { type Change, type FieldTable, type NumberRow, patched } from '../fields/rows.ts';
import { boxOf, type Corner, type Side, type StageBox, wingWidth, withBox, withWing } from './stageEdits.ts';

export interface StageHere {
  readonly stage: Stage;
}

const edit = ({ stage }: StageHere, set: Partial<Omit<Stage, 'id'>>): Change => ({
  type: 'editStage',
  stage: stage.id,
  set,
});

const PLACE = fieldAt(stageSchema, 'outline.xMm');
/** Half a metre is no stage: a number typed in the wrong unit is. mm. */
const SIZE = { least: 500, most: PLACE.most };
/** A wing wider than this is a stage of its own. mm. */
const WING = { least: 0, most: 20_000 };

/** What a rectangular stage measures; its corners, wings and centre line follow. */
const boxRow = (path: keyof StageBox, label: string, more: Partial<NumberRow<StageHere>>): NumberRow<StageHere> => ({
  path,
  label,
  derived: true,
  bounds: PLACE,
  value: ({ stage }) => boxOf(stage.outline)?.[path] ?? null,
  set: (here, mm) => {
    const box = boxOf(here.stage.outline);
    return edit(here, box === null ? {} : withBox(here.stage, { ...box, [path]: mm }));
  },
  ...more,
});

const wingRow = (side: Side): NumberRow<StageHere> => ({
  path: `${side}WingMm`,
  label: `Wing, stage ${side}`,
  derived: true,
  bounds: WING,
  when: ({ stage }) => wingWidth(stage, side) !== null,
  note: ({ stage }) => (wingWidth(stage, side) === 0 ? 'none' : undefined),
  value: ({ stage }) => wingWidth(stage, side) || null,
  set: (here, mm) => edit(here, { wings: withWing(here.stage, side, mm) }),
  clear: (here) => edit(here, { wings: withWing(here.stage, side, 0) }),
});

export const STAGE = {
  schema: stageSchema,
  record: ({ stage }) => stage,
  write: (here, keys, value) => edit(here, patched(here.stage, keys, value)),
  sections: {
    name: [{ as: 'words', path: 'name', label: 'Name' }],
    box: [
      boxRow('widthMm', 'Width', { bounds: SIZE }),
      boxRow('depthMm', 'Depth', { bounds: SIZE }),
      boxRow('middleXMm', 'Middle', { note: '+ left' }),
      boxRow('frontYMm', 'Front edge', { note: '+ upstage' }),
      wingRow('left'),
      wingRow('right'),
    ],
    centre: [{ path: 'centreXMm', label: 'Centre line', note: '+ left' }],
  },
} satisfies FieldTable<StageHere>;

/** A corner of an outline, or a point of a cable run: one of several that are written together. */
export interface CornerHere {
  readonly corners: readonly Corner[];
  readonly at: number;
  readonly put: (corners: Corner[]) => Change;
}

export const CORNER = {
  schema: schemaAt(planSchema, 'stages.outline'),
  record: ({ corners, at }) => corners[at],
  write: ({ corners, at, put }, keys, value) =>
    put(corners.with(at, { ...corners[at], ...patched(corners[at], keys, value) })),
  sections: {
    corner: [
      { path: 'xMm', label: ({ at }) => `Corner ${at + 1}, from centre` },
      { path: 'yMm', label: 'Upstage' },
    ],
    point: [
      { path: 'xMm', label: 'From centre', note: '+ left' },
      { path: 'yMm', label: 'Upstage' },
    ],
  },
} satisfies FieldTable<CornerHere>;
