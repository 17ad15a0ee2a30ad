/** What pieces travel in, set for several at once: a rack with all that is mounted on it, or whatever was chosen. Pure. */
import { assemblyRoots } from '../../../layout/assemblies.ts';
import type { Command } from '../../../plan/commands/index.ts';
import { type Piece, planSchema, type Rack } from '../../../plan/schema.ts';
import { schemaAt } from '../fields/bounds.ts';
import type { FieldTable, Here } from '../fields/rows.ts';

type Where = Pick<Here, 'setup' | 'setupId'>;

/** Null: back to what travels by itself. */
const put = (setupId: string, pieces: readonly string[], load: string | null): Command => ({
  type: 'many',
  commands: pieces.map((piece) => ({ type: 'setPiece', setup: setupId, piece, set: { load } })),
});

/** A rack and all that stands with it. */
const onRack = ({ setup }: Where, rack: Rack): string[] =>
  setup.order.filter((id) => assemblyRoots(setup).get(id) === rack.id);

/** As it stands, drums and cymbals on it, in one load that is called like the rack; or apart, each as it does by itself. */
export const travelTogether = (where: Where, rack: Rack): Command =>
  put(where.setupId, onRack(where, rack), rack.name || 'Rack');
export const travelApart = (where: Where, rack: Rack): Command => put(where.setupId, onRack(where, rack), null);

/** Whether any of it was set, and whether all of it travels with the rack. */
export function travelOf(where: Where, rack: Rack): 'apart' | 'together' | 'mixed' {
  const loads = onRack(where, rack).map((id) => where.setup.pieces[id].load ?? '');
  if (loads.every((load) => load === '')) return 'apart';
  return loads.every((load) => load === loads[0]) ? 'together' : 'mixed';
}

/** Chosen pieces. */
export interface Chosen extends Where {
  readonly pieces: readonly Piece[];
}

export const CHOSEN = {
  schema: schemaAt(planSchema, 'setups.pieces.rack'),
  record: ({ pieces }) => (pieces.every(({ load }) => load === pieces[0].load) ? { load: pieces[0].load } : {}),
  write: ({ pieces, setupId }, _, value) =>
    put(
      setupId,
      pieces.map(({ id }) => id),
      value as string | null,
    ),
  sections: {
    load: [{ as: 'words', path: 'load', label: 'Travel in', placeholder: 'by themselves; cymbals together' }],
  },
} satisfies FieldTable<Chosen>;
