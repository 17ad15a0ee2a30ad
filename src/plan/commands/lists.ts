/** What a setup tells the venue: its input list, monitor mixes, cable runs and what the venue must bring. */
import type { Cable, Input, Mix } from '../schema.ts';
import { type OnSetup, type Rule, refuseEmpty, refuseSetup, writeFields } from './rule.ts';

/**
 * Lists whole, as they shall be; left out, a list stays; null takes it away (the input list is then proposed anew).
 * Pieces lose a mix that is no longer in the list.
 */
export interface SetLists extends OnSetup<'setLists'> {
  readonly set: {
    readonly inputs?: readonly Input[] | null;
    readonly mixes?: readonly Mix[] | null;
    readonly cables?: readonly Cable[] | null;
    readonly venueProvides?: readonly string[] | null;
  };
}

const LISTS = ['inputs', 'mixes', 'cables', 'venueProvides'];

export const setLists: Rule<SetLists> = {
  refuse: (plan, { setup, set: { inputs, mixes, cables, venueProvides } }) =>
    refuseSetup(plan, setup) ?? refuseEmpty({ inputs, mixes, cables, venueProvides }),
  apply(draft, { setup: id, set }) {
    const setup = draft.setups[id];
    if (set.mixes !== undefined) {
      const kept = new Set(set.mixes?.map((mix) => mix.id));
      const gone = new Set(setup.mixes?.map((mix) => mix.id).filter((mix) => !kept.has(mix)));
      for (const piece of Object.values(setup.pieces))
        if (piece.kind === 'item' && piece.mix !== undefined && gone.has(piece.mix)) delete piece.mix;
    }
    writeFields(setup, set, LISTS, LISTS);
  },
};
