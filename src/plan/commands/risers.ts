/** Commands on risers. A riser belongs to the plan, and any number of setups may stand on it. */
import type { Draft } from 'immer';
import { own } from '../places.ts';
import type { Riser } from '../schema.ts';
import { type Rule, type RulesOf, refuseEmpty, refuseNewId, refuseUnknown, writeFields } from './rule.ts';

export interface AddRiser {
  readonly type: 'addRiser';
  readonly riser: Riser;
}

/** null takes the limit on turning away. */
export interface EditRiser {
  readonly type: 'editRiser';
  readonly riser: string;
  readonly set: Partial<Pick<Riser, 'name' | 'heightMm' | 'ratedKPa' | 'edgeMarginMm' | 'modules'>> & {
    readonly turnAtMostDeg?: number | null;
  };
}

/** Setups that stood on it stand on the floor. */
export interface RemoveRiser {
  readonly type: 'removeRiser';
  readonly riser: string;
}

export type RiserCommand = AddRiser | EditRiser | RemoveRiser;

const addRiser: Rule<AddRiser> = {
  refuse: (plan, { riser }) => refuseNewId('riser', riser.id, own(plan.risers, riser.id) !== undefined),
  apply(draft, { riser }) {
    draft.risers[riser.id] = riser as Draft<Riser>;
  },
};

const editRiser: Rule<EditRiser> = {
  refuse: (plan, { riser, set }) => refuseUnknown('riser', plan.risers, riser) ?? refuseEmpty(set),
  apply(draft, { riser, set }) {
    const fields = ['name', 'heightMm', 'ratedKPa', 'edgeMarginMm', 'turnAtMostDeg', 'modules'];
    writeFields(draft.risers[riser], set, fields, ['turnAtMostDeg']);
  },
};

const removeRiser: Rule<RemoveRiser> = {
  refuse: (plan, { riser }) => refuseUnknown('riser', plan.risers, riser),
  apply(draft, { riser }) {
    delete draft.risers[riser];
    for (const setup of Object.values(draft.setups)) if (setup.riser === riser) setup.riser = null;
  },
};

export const riserRules = { addRiser, editRiser, removeRiser } satisfies RulesOf<RiserCommand>;
