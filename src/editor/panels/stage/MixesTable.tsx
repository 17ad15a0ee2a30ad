/** Monitor mixes: who hears what, by a wedge or in the ear. Which wedge plays a mix is chosen at the wedge. */

import { Plus, Speaker } from 'lucide-react';
import { hearing } from '../../../lists/mixes.ts';
import { LIMITS, type Mix } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { TextButton } from '../shared/TextButton.tsx';
import { nextId } from './listEdits.ts';
import { MIX } from './listFields.ts';
import { RowTable } from './RowTable.tsx';
import { mixPerWedge } from './stageLists.ts';
import { useLines } from './useLines.ts';
import { useLists } from './useLists.ts';

export function MixesTable() {
  const { plan, setup, setupId, run, isReadOnly } = usePanel();
  const { now, write } = useLists();
  const mixes = setup.mixes ?? [];
  const list = (): readonly Mix[] => now().setup.mixes ?? [];
  const edits = useLines<Mix>({
    list,
    put: (next) => write({ mixes: next.length > 0 ? next : null }),
    idOf: ({ id }) => id,
    whenMoved: ({ name }, _, to) => `${name || 'The mix'} is mix ${to + 1} now.`,
    whenGone: ({ name }) => `${name || 'The mix'} is off the list.`,
  });
  const add = () => {
    const old = list();
    edits.add({ id: nextId('mix', old), name: `Mix ${old.length + 1}`, by: 'wedge' }, 'name');
  };
  const heardAt = (mix: Mix) =>
    hearing(setup, mix.id)
      .map(({ name, gear }) => name || gear)
      .join(', ') || <span className="hint">nothing yet</span>;
  const perWedge = mixPerWedge(plan, setup);
  return (
    <>
      {mixes.length === 0 ? (
        <p className="hint">No mixes yet. Each gets a number by its place in the list.</p>
      ) : (
        <RowTable
          caption={`Monitor mixes of ${setup.name}`}
          className="mixes-table"
          numberHead="Mix"
          table={MIX}
          lines={mixes.map((mix, at) => ({ setupId, list, at, mix }))}
          idOf={({ mix }) => mix.id}
          what="mix"
          tells={{ head: 'Heard at', of: ({ mix }) => heardAt(mix) }}
          edits={edits}
        />
      )}
      <div className="parts-head">
        <TextButton icon={Plus} isDisabled={isReadOnly || mixes.length >= LIMITS.mixes} onPress={add}>
          Add a mix
        </TextButton>
        <TextButton
          icon={Speaker}
          isDisabled={isReadOnly || perWedge.length === 0}
          onPress={() => void run({ type: 'many', commands: mixPerWedge(now().plan, now().setup) })}
        >
          A mix for each wedge
        </TextButton>
        <p className="hint">Select a wedge or a person on the drawing to choose the mix that is heard there.</p>
        <span role="status">{edits.said}</span>
      </div>
    </>
  );
}
