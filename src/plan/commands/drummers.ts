/** Commands on drummers. A drummer belongs to the plan, as a riser does, and any number of setups may be set for one. */
import { own } from '../places.ts';
import type { Drummer, Plan } from '../schema.ts';
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

export interface AddDrummer {
  readonly type: 'addDrummer';
  readonly drummer: Drummer;
}

/** What is named is written whole; null takes away what may be left out. */
export interface EditDrummer {
  readonly type: 'editDrummer';
  readonly drummer: string;
  readonly set: Partial<Pick<Drummer, 'name' | 'sex' | 'percentile' | 'handed'>> & {
    readonly [K in 'openHanded' | 'shoeMm' | 'stickMm' | 'measuredMm']?: Drummer[K] | null;
  };
}

/** Setups that were set for them are set for nobody: a typical drummer counts. */
export interface RemoveDrummer {
  readonly type: 'removeDrummer';
  readonly drummer: string;
}

/** Whom a setup is set for; null: nobody, and a typical drummer counts. Whoever is named leads with their own hand. */
export interface SetDrummer extends OnSetup<'setDrummer'> {
  readonly drummer: string | null;
}

export type DrummerCommand = AddDrummer | EditDrummer | RemoveDrummer | SetDrummer;

const OPTIONAL = ['openHanded', 'shoeMm', 'stickMm', 'measuredMm'];
const FIELDS = ['name', 'sex', 'percentile', 'handed', ...OPTIONAL];

const refuseDrummer = (plan: Plan, id: string) => refuseUnknown('drummer', plan.drummers, id);

const addDrummer: Rule<AddDrummer> = {
  refuse: (plan, { drummer }) => refuseNewId('drummer', drummer.id, own(plan.drummers ?? {}, drummer.id) !== undefined),
  apply(draft, { drummer }) {
    putOn(draft, 'drummers', drummer);
  },
};

const editDrummer: Rule<EditDrummer> = {
  refuse: (plan, { drummer, set }) => refuseDrummer(plan, drummer) ?? refuseEmpty(set),
  apply(draft, { drummer, set }) {
    if (draft.drummers) writeFields(draft.drummers[drummer], set, FIELDS, OPTIONAL);
  },
};

const removeDrummer: Rule<RemoveDrummer> = {
  refuse: (plan, { drummer }) => refuseDrummer(plan, drummer),
  apply(draft, { drummer }) {
    takeOff(draft, 'drummers', drummer);
    for (const setup of Object.values(draft.setups))
      if (setup.drummer === drummer) {
        delete setup.drummer;
        delete setup.otherHand;
      }
  },
};

const setDrummer: Rule<SetDrummer> = {
  refuse: (plan, { setup, drummer }) =>
    refuseSetup(plan, setup) ?? (drummer === null ? null : refuseDrummer(plan, drummer)),
  apply(draft, { setup: id, drummer }) {
    const setup = draft.setups[id];
    delete setup.otherHand;
    if (drummer === null) delete setup.drummer;
    else setup.drummer = drummer;
  },
};

export const drummerRules = { addDrummer, editDrummer, removeDrummer, setDrummer } satisfies RulesOf<DrummerCommand>;
