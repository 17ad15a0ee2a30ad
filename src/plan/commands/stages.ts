/** Commands on stages. A stage belongs to the plan, as a riser does, and any number of setups may stand on it. */
import type { Draft } from 'immer';
import { own } from '../places.ts';
import type { Plan, Stage } from '../schema.ts';
import { type Refusal, type Rule, refuseNewId, refuseSetup, writeFields } from './rule.ts';

export interface AddStage {
  readonly type: 'addStage';
  readonly stage: Stage;
}

export interface EditStage {
  readonly type: 'editStage';
  readonly stage: string;
  readonly set: Partial<Pick<Stage, 'name' | 'outline' | 'centreXMm' | 'wings'>>;
}

/** Setups that stood on it have no stage drawn. */
export interface RemoveStage {
  readonly type: 'removeStage';
  readonly stage: string;
}

/** Which stage a setup stands on; null: none drawn. */
export interface SetStage {
  readonly type: 'setStage';
  readonly setup: string;
  readonly stage: string | null;
}

export type StageCommand = AddStage | EditStage | RemoveStage | SetStage;

const stageOf = (plan: Plan, id: string): Stage | undefined => own(plan.stages ?? {}, id);

const refuseUnknown = (plan: Plan, id: string): Refusal | null =>
  stageOf(plan, id) ? null : { code: 'unknown', what: 'stage', id, where: '' };

const addStage: Rule<AddStage> = {
  refuse: (plan, { stage }) => refuseNewId('stage', stage.id, stageOf(plan, stage.id) !== undefined),
  apply(draft, { stage }) {
    draft.stages = { ...draft.stages, [stage.id]: stage as Draft<Stage> };
  },
};

const editStage: Rule<EditStage> = {
  refuse(plan, { stage, set }) {
    const missing = refuseUnknown(plan, stage);
    if (missing) return missing;
    return Object.values(set).every((value) => value === undefined) ? { code: 'nothing_asked' } : null;
  },
  apply(draft, { stage, set }) {
    if (draft.stages) writeFields(draft.stages[stage], set, ['name', 'outline', 'centreXMm', 'wings']);
  },
};

const removeStage: Rule<RemoveStage> = {
  refuse: (plan, { stage }) => refuseUnknown(plan, stage),
  apply(draft, { stage }) {
    const { [stage]: _, ...rest } = draft.stages ?? {};
    if (Object.keys(rest).length > 0) draft.stages = rest;
    else delete draft.stages;
    for (const setup of Object.values(draft.setups)) if (setup.stage === stage) delete setup.stage;
  },
};

const setStage: Rule<SetStage> = {
  refuse: (plan, { setup, stage }) => refuseSetup(plan, setup) ?? (stage === null ? null : refuseUnknown(plan, stage)),
  apply(draft, { setup, stage }) {
    if (stage === null) delete draft.setups[setup].stage;
    else draft.setups[setup].stage = stage;
  },
};

export const stageRules = { addStage, editStage, removeStage, setStage } satisfies {
  [K in StageCommand['type']]: Rule<Extract<StageCommand, { type: K }>>;
};
