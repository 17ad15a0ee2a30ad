/** Commands on setups as wholes. */
import type { Draft } from 'immer';
import { own } from '../places.ts';
import type { Setup } from '../schema.ts';
import { inserted, sameNames } from './pieces.ts';
import { type OnSetup, type Rule, type RulesOf, refuseNewId, refuseSetup, refuseUnknown } from './rule.ts';

/** `at`: its place in the order, from 0; left out, last. */
export interface AddSetup {
  readonly type: 'addSetup';
  readonly setup: Setup;
  readonly at?: number;
}

/** A copy right after the original. Piece ids are kept: the same id is the same piece in both, so they can be compared. */
export interface DuplicateSetup extends OnSetup<'duplicateSetup'> {
  readonly id: string;
  readonly name: string;
}

export interface RenameSetup extends OnSetup<'renameSetup'> {
  readonly name: string;
}

export type RemoveSetup = OnSetup<'removeSetup'>;

export interface OrderSetups {
  readonly type: 'orderSetups';
  readonly order: readonly string[];
}

/** Which riser a setup stands on; null: the floor. */
export interface SetRiser extends OnSetup<'setRiser'> {
  readonly riser: string | null;
}

export type SetupCommand = AddSetup | DuplicateSetup | RenameSetup | RemoveSetup | OrderSetups | SetRiser;

const addSetup: Rule<AddSetup> = {
  refuse: (plan, { setup }) => refuseNewId('setup', setup.id, own(plan.setups, setup.id) !== undefined),
  apply(draft, { setup, at }) {
    draft.setups[setup.id] = setup as Draft<Setup>;
    draft.order = inserted(draft.order, setup.id, at);
  },
};

const duplicateSetup: Rule<DuplicateSetup> = {
  refuse: (plan, { setup, id }) =>
    refuseSetup(plan, setup) ?? refuseNewId('setup', id, own(plan.setups, id) !== undefined),
  apply(draft, { setup, id, name }, plan) {
    // Shares its pieces with the original until either changes: plans are never changed in place.
    draft.setups[id] = { ...plan.setups[setup], id, name } as Draft<Setup>;
    draft.order = inserted(draft.order, id, draft.order.indexOf(setup) + 1);
  },
};

const renameSetup: Rule<RenameSetup> = {
  refuse: (plan, { setup }) => refuseSetup(plan, setup),
  apply(draft, { setup, name }) {
    draft.setups[setup].name = name;
  },
};

const removeSetup: Rule<RemoveSetup> = {
  refuse: (plan, { setup }) =>
    refuseSetup(plan, setup) ?? (plan.order.length > 1 ? null : { code: 'last_setup', setup: plan.setups[setup].name }),
  apply(draft, { setup }) {
    delete draft.setups[setup];
    draft.order = draft.order.filter((id) => id !== setup);
  },
};

const orderSetups: Rule<OrderSetups> = {
  refuse: (plan, { order }) => (sameNames(order, plan.order) ? null : { code: 'order_differs', what: 'setup' }),
  apply(draft, { order }) {
    draft.order = [...order];
  },
};

const setRiser: Rule<SetRiser> = {
  refuse: (plan, { setup, riser }) =>
    refuseSetup(plan, setup) ?? (riser === null ? null : refuseUnknown('riser', plan.risers, riser)),
  apply(draft, { setup, riser }) {
    draft.setups[setup].riser = riser;
  },
};

export const setupRules = {
  addSetup,
  duplicateSetup,
  renameSetup,
  removeSetup,
  orderSetups,
  setRiser,
} satisfies RulesOf<SetupCommand>;
