/** Commands on stages. A stage belongs to the plan, as a riser does, and any number of setups may stand on it. */
import { own } from '../places.ts';
import type { Plan, Stage } from '../schema.ts';
import {
  type OnSetup,
  putOn,
  type Rule,
  type RulesOf,
  refuseEmpty,
  refuseNewId,
  refuseSetup,
  refuseUnknown,
  takeOff,
  writeFields,
} from './rule.ts';

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
export interface SetStage extends OnSetup<'setStage'> {
  readonly stage: string | null;
}

export type StageCommand = AddStage | EditStage | RemoveStage | SetStage;

const refuseStage = (plan: Plan, id: string) => refuseUnknown('stage', plan.stages, id);

const addStage: Rule<AddStage> = {
  refuse: (plan, { stage }) => refuseNewId('stage', stage.id, own(plan.stages ?? {}, stage.id) !== undefined),
  apply(draft, { stage }) {
    putOn(draft, 'stages', stage);
  },
};

const editStage: Rule<EditStage> = {
  refuse: (plan, { stage, set }) => refuseStage(plan, stage) ?? refuseEmpty(set),
  apply(draft, { stage, set }) {
    if (draft.stages) writeFields(draft.stages[stage], set, ['name', 'outline', 'centreXMm', 'wings']);
  },
};

const removeStage: Rule<RemoveStage> = {
  refuse: (plan, { stage }) => refuseStage(plan, stage),
  apply(draft, { stage }) {
    takeOff(draft, 'stages', stage);
    for (const setup of Object.values(draft.setups)) if (setup.stage === stage) delete setup.stage;
  },
};

const setStage: Rule<SetStage> = {
  refuse: (plan, { setup, stage }) => refuseSetup(plan, setup) ?? (stage === null ? null : refuseStage(plan, stage)),
  apply(draft, { setup, stage }) {
    if (stage === null) delete draft.setups[setup].stage;
    else draft.setups[setup].stage = stage;
  },
};

export const stageRules = { addStage, editStage, removeStage, setStage } satisfies RulesOf<StageCommand>;
