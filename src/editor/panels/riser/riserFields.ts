/** The fields of a riser and of its modules. */
import type { GearOf } from '../../../gear/schema.ts';
import { planSchema, type Riser, TURN_AT_MOST_DEG } from '../../../plan/schema.ts';
import { schemaAt } from '../fields/bounds.ts';
import { type Change, type FieldTable, NONE, patched } from '../fields/rows.ts';
import { gearChoices, orNone } from '../shared/gearChoices.ts';
import { type Module, ratingOf, sized } from './riserEdits.ts';

export interface RiserHere {
  readonly riser: Riser;
  readonly decks: readonly GearOf<'deck'>[];
}

export const deckOf = ({ decks }: RiserHere, id: string | undefined) => decks.find((deck) => deck.id === id);

const editRiser = ({ riser }: RiserHere, set: Partial<Omit<Riser, 'id'>>): Change => ({
  type: 'editRiser',
  riser: riser.id,
  set,
});

export const RISER = {
  schema: schemaAt(planSchema, 'risers'),
  record: ({ riser }) => riser,
  write: (here, keys, value) => editRiser(here, patched(here.riser, keys, value)),
  sections: {
    riser: [
      { as: 'words', path: 'name', label: 'Name' },
      { path: 'heightMm', label: 'Height' },
      { path: 'edgeMarginMm', label: 'Margin to the edge' },
      {
        path: 'turnAtMostDeg',
        label: 'Turn at most',
        note: 'from facing the audience',
        otherwise: () => TURN_AT_MOST_DEG,
      },
      {
        path: 'ratedKPa',
        label: 'Rated load',
        note: ({ riser }) => (riser.ratedKPa === null ? 'not known' : undefined),
        otherwise: (here) => ratingOf(here.riser.modules.map(({ gear }) => deckOf(here, gear))),
        // As strong as a deck of the catalogue may be: pounds to the square foot typed as kilopascals are found out.
        bounds: { most: 50 },
      },
    ],
  },
} satisfies FieldTable<RiserHere>;

export interface ModuleHere extends RiserHere {
  readonly module: Module;
}

const putModule = (here: ModuleHere, next: Module): Change =>
  editRiser(here, { modules: here.riser.modules.map((one) => (one.id === next.id ? next : one)) });
export const MODULE = {
  schema: schemaAt(planSchema, 'risers.modules'),
  record: ({ module }) => module,
  write: (here, keys, value) => {
    const next = { ...here.module, ...patched(here.module, keys, value) };
    return putModule(here, keys[0] === 'widthMm' || keys[0] === 'depthMm' ? sized(next, here.decks) : next);
  },
  sections: {
    module: [
      {
        as: 'choice',
        path: 'gear',
        label: 'Deck',
        choices: ({ decks, module }) =>
          orNone(
            gearChoices(decks, () => true, module.gear ?? null),
            'Some other size',
          ),
        set: (here, id) => {
          const { gear: _, ...bare } = here.module;
          const deck = id === NONE ? undefined : deckOf(here, id);
          if (deck === undefined) return putModule(here, bare);
          return putModule(here, { ...bare, gear: deck.id, widthMm: deck.widthMm, depthMm: deck.depthMm });
        },
      },
      { path: 'widthMm', label: 'Width' },
      { path: 'depthMm', label: 'Depth' },
      { path: 'xMm', label: 'Middle, from centre line' },
      { path: 'yMm', label: 'Middle, upstage' },
      { path: 'headingDeg', label: 'Turned' },
    ],
  },
} satisfies FieldTable<ModuleHere>;
