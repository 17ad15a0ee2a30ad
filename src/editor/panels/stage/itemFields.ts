/** What a stage item says to the venue, in fields: what a microphone takes, which mix is heard, what a power drop gives. */
import type { GearOf } from '../../../gear/schema.ts';
import type { Command } from '../../../plan/commands/index.ts';
import { type Item, planSchema } from '../../../plan/schema.ts';
import { gearName } from '../../../words/names.ts';
import { schemaAt } from '../fields/bounds.ts';
import { type FieldTable, type Here, NONE, patched } from '../fields/rows.ts';
import { setItem } from '../inspector/pieceFields.ts';
import { orNone } from '../shared/gearChoices.ts';
import { nextId } from './listEdits.ts';

export interface StageItemHere extends Here {
  readonly item: Item;
  readonly use: GearOf<'stageItem'>['use'];
}

const NEW = '+new';

/** Mains where lengths are in inches, and elsewhere. Common practice, no source: the venue's plate says what it is. */
const usualVolts = ({ units }: Here): number => (units === 'in' ? 120 : 230);

/** The mix that is chosen; a new one is made of what a wedge plays, or what a person hears by ear. */
function chooseMix(here: StageItemHere, id: string): Command {
  if (id !== NEW) return setItem(here, { mix: id === NONE ? null : id });
  const { setup, setupId, item, use } = here;
  const mixes = setup.mixes ?? [];
  const by = use === 'wedge' ? ('wedge' as const) : ('inEar' as const);
  const made = { id: nextId('mix', mixes), name: item.name || `Mix ${mixes.length + 1}`, by };
  return {
    type: 'many',
    commands: [{ type: 'setLists', setup: setupId, set: { mixes: [...mixes, made] } }, setItem(here, { mix: made.id })],
  };
}

export const STAGE_ITEM = {
  schema: schemaAt(planSchema, 'setups.pieces.item'),
  record: ({ item }) => item,
  write: (here, keys, value) => setItem(here, patched(here.item, keys, value)),
  sections: {
    takes: [
      {
        as: 'choice',
        path: 'takes',
        label: 'Takes',
        value: ({ setup, item }) =>
          item.takes !== undefined && Object.hasOwn(setup.pieces, item.takes) ? item.takes : NONE,
        choices: ({ plan, setup, item }) => {
          const others = setup.order
            .map((id) => setup.pieces[id])
            .filter((piece): piece is Item => piece?.kind === 'item' && piece.id !== item.id);
          return orNone(
            others.map((piece) => ({ id: piece.id, label: piece.name || gearName(plan, piece.gear) })),
            'What stands before it',
          );
        },
      },
    ],
    mix: [
      {
        as: 'choice',
        path: 'mix',
        label: ({ use }) => (use === 'wedge' ? 'Plays' : 'Hears by ear'),
        value: ({ setup, item }) => setup.mixes?.find(({ id }) => id === item.mix)?.id ?? NONE,
        choices: ({ setup }) => [
          ...orNone(
            (setup.mixes ?? []).map(({ id, name }, at) => ({ id, label: `${at + 1} ${name}` })),
            'None',
          ),
          { id: NEW, label: 'A new mix …' },
        ],
        set: chooseMix,
      },
    ],
    power: [
      {
        path: 'power.volts',
        label: 'Voltage',
        otherwise: usualVolts,
        set: (here, volts) => setItem(here, { power: { loadW: null, ...here.item.power, volts } }),
        clear: (here) => setItem(here, { power: null }),
      },
      {
        path: 'power.loadW',
        label: 'Load',
        note: ({ item }) => ((item.power?.loadW ?? null) === null ? 'not known' : undefined),
        set: (here, loadW) => setItem(here, { power: { volts: usualVolts(here), ...here.item.power, loadW } }),
        clear: (here) => setItem(here, { power: { volts: usualVolts(here), ...here.item.power, loadW: null } }),
      },
    ],
  },
} satisfies FieldTable<StageItemHere>;
