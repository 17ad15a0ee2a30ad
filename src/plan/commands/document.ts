/** Commands on the plan itself: its name, units, notes, limits, prices, and gear of its own. */
import type { Draft } from 'immer';
import { gearOf } from '../../gear/catalogue.ts';
import type { Gear } from '../../gear/schema.ts';
import { own } from '../places.ts';
import type { Limits, Plan, Setup } from '../schema.ts';
import {
  type Refusal,
  type Rule,
  type RulesOf,
  refuseEmpty,
  refuseNewId,
  refuseSetup,
  refuseUnknown,
  writeFields,
} from './rule.ts';

export interface RenamePlan {
  readonly type: 'renamePlan';
  readonly name: string;
}

/** The units that the page and the sheets show; the plan itself stays in mm. */
export interface SetUnits {
  readonly type: 'setUnits';
  readonly units: Plan['units'];
}

/** Notes of the plan, or of one setup (which has a note alone). null takes one away; left out, it stays. */
export interface SetNotes {
  readonly type: 'setNotes';
  readonly setup?: string;
  readonly note?: string | null;
  readonly contact?: string | null;
  /** What prices are in, as it is to be printed. */
  readonly currency?: string | null;
  /** Of the sheets. */
  readonly revision?: string | null;
}

/** The user's own price and note for a part, by gear id or end-cap id; null takes one away, left out it stays. */
export interface SetPartNote {
  readonly type: 'setPartNote';
  readonly part: string;
  readonly set: { readonly price?: number | null; readonly note?: string | null };
}

/** All limits at once; null: back to the program's own. */
export interface SetLimits {
  readonly type: 'setLimits';
  readonly limits: Limits | null;
}

/** Add an entry of the plan's own, or a catalogue entry with measured values under the same id; or replace one. */
export interface SetGear {
  readonly type: 'setGear';
  readonly gear: Gear;
}

/** Take the plan's own entry away; where the catalogue has the same id, its typical sizes count again. */
export interface RemoveGear {
  readonly type: 'removeGear';
  readonly gear: string;
}

export type DocumentCommand = RenamePlan | SetUnits | SetNotes | SetPartNote | SetLimits | SetGear | RemoveGear;

const renamePlan: Rule<RenamePlan> = {
  refuse: () => null,
  apply(draft, { name }) {
    draft.name = name;
  },
};

const setUnits: Rule<SetUnits> = {
  refuse: () => null,
  apply(draft, { units }) {
    draft.units = units;
  },
};

const PLAN_NOTES = ['note', 'contact', 'currency', 'revision'] as const;
const SETUP_NOTES = ['note'] as const;

const setNotes: Rule<SetNotes> = {
  refuse(plan, { setup, note, contact, currency, revision }) {
    if (setup === undefined) return refuseEmpty({ note, contact, currency, revision });
    return refuseSetup(plan, setup) ?? refuseEmpty({ note });
  },
  apply(draft, { setup, ...set }) {
    if (setup === undefined) writeFields(draft, set, PLAN_NOTES, PLAN_NOTES);
    else writeFields(draft.setups[setup], set, SETUP_NOTES, SETUP_NOTES);
  },
};

const setPartNote: Rule<SetPartNote> = {
  refuse: (_, { part, set: { price, note } }) => refuseEmpty({ price, note }) ?? refuseNewId('gear', part, false),
  apply(draft, { part, set }) {
    const note = { ...own(draft.partNotes ?? {}, part) };
    writeFields(note, set, ['price', 'note'], ['price', 'note']);
    const { [part]: _, ...others } = draft.partNotes ?? {};
    const notes = Object.keys(note).length === 0 ? others : { ...others, [part]: note };
    if (Object.keys(notes).length > 0) draft.partNotes = notes;
    else delete draft.partNotes;
  },
};

const setLimits: Rule<SetLimits> = {
  refuse: () => null,
  apply(draft, { limits }) {
    if (limits === null) delete draft.limits;
    else draft.limits = limits as Draft<Limits>;
  },
};

const setGear: Rule<SetGear> = {
  refuse: (_, { gear }) => refuseNewId('gear', gear.id, false),
  apply(draft, { gear }) {
    draft.gear[gear.id] = gear as Draft<Gear>;
  },
};

/** Gear ids that a setup names, with the piece that does. */
function* gearNamed(setup: Setup): Generator<{ id: string; piece: string }> {
  for (const piece of Object.values(setup.pieces)) {
    const ids =
      piece.kind === 'item'
        ? [
            piece.gear,
            piece.mount?.clamp,
            piece.mount?.arm,
            piece.mount?.platformArm,
            ...(piece.ties ?? []).flatMap((tie) => [tie.link, tie.clamp]),
          ]
        : [
            ...piece.legs.flatMap((leg) => [leg.tube, leg.foot?.gear]),
            ...piece.spans.flatMap((span) => span.bars.map((bar) => bar.tube)),
          ];
    for (const id of ids) if (id) yield { id, piece: piece.name };
  }
}

function refuseUse(plan: Plan, id: string, gear: Gear): Refusal | null {
  for (const setup of Object.values(plan.setups))
    for (const named of gearNamed(setup))
      if (named.id === id) return { code: 'gear_in_use', gear: gear.name, setup: setup.name, piece: named.piece };
  return null;
}

const removeGear: Rule<RemoveGear> = {
  refuse(plan, { gear: id }) {
    const missing = refuseUnknown('gear', plan.gear, id);
    return missing || gearOf({}, id) ? missing : refuseUse(plan, id, plan.gear[id]);
  },
  apply(draft, { gear }) {
    delete draft.gear[gear];
  },
};

export const documentRules = {
  renamePlan,
  setUnits,
  setNotes,
  setPartNote,
  setLimits,
  setGear,
  removeGear,
} satisfies RulesOf<DocumentCommand>;
