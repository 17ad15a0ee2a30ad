/** Monitor mixes: who hears what, by a wedge or in the ear. Which wedge plays a mix is chosen at the wedge. */

import { Plus, Speaker } from 'lucide-react';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { hearing } from '../../../lists/mixes.ts';
import { LIMITS, type Mix } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { ChoiceField, WordField } from '../fields/WordField.tsx';
import { changed, indexOfId, moved, nextId, without } from './listEdits.ts';
import { RowButtons } from './RowButtons.tsx';
import { mixPerWedge } from './stageLists.ts';
import { useLists } from './useLists.ts';
import { useRows } from './useRows.ts';

const BY = [
  { id: 'wedge', label: 'Wedge' },
  { id: 'inEar', label: 'In ear' },
];

export function MixesTable() {
  const { plan, setup, run, isReadOnly } = usePanel();
  const { now, write } = useLists();
  const [said, setSaid] = useState('');
  const mixes = setup.mixes ?? [];
  const list = (): readonly Mix[] => now().setup.mixes ?? [];
  const set = (id: string, change: Partial<Mix>) => write({ mixes: changed(list(), id, change) });
  const rows = useRows((id, by) => {
    const next = moved(list(), indexOfId(list(), id), by);
    if (next === list()) return null;
    write({ mixes: next });
    const index = indexOfId(next, id);
    setSaid(`${next[index].name || 'The mix'} is mix ${index + 1} now.`);
    return id;
  });
  const remove = (mix: Mix, at: number) => {
    const beside = mixes[at + 1] ?? mixes[at - 1];
    const left = without(list(), mix.id);
    write({ mixes: left.length > 0 ? left : null });
    if (beside !== undefined) rows.keep({ row: beside.id, col: 'remove' });
    setSaid(`${mix.name || 'The mix'} is off the list.`);
  };
  const add = () => {
    const id = nextId('mix', list());
    rows.keep({ row: id, col: 'name' });
    write({ mixes: [...list(), { id, name: `Mix ${list().length + 1}`, by: 'wedge' }] });
  };
  const perWedge = mixPerWedge(plan, setup);
  const word = { mayBeEmpty: true, hideLabel: true, isReadOnly };
  return (
    <>
      {mixes.length === 0 ? (
        <p className="hint">No mixes yet. Each gets a number by its place in the list.</p>
      ) : (
        <div ref={rows.box} onKeyDownCapture={rows.onKeyDownCapture}>
          <table className="row-table mixes-table">
            <caption className="unseen">Monitor mixes of {setup.name}</caption>
            <thead>
              <tr>
                <th scope="col">Mix</th>
                <th scope="col">For</th>
                <th scope="col">By</th>
                <th scope="col">Wants to hear</th>
                <th scope="col">Heard at</th>
                <th scope="col">
                  <span className="unseen">Move or remove</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {mixes.map((mix, at) => (
                <tr key={mix.id} data-row={mix.id}>
                  <th scope="row" className="row-number">
                    {at + 1}
                  </th>
                  <td data-col="name" data-label="For">
                    <WordField
                      {...word}
                      most={120}
                      label={`For, mix ${at + 1}`}
                      value={mix.name}
                      onCommit={(name) => set(mix.id, { name })}
                    />
                  </td>
                  <td data-col="by" data-label="By">
                    <ChoiceField
                      label={`By, mix ${at + 1}`}
                      hideLabel
                      value={mix.by}
                      choices={BY}
                      isReadOnly={isReadOnly}
                      onCommit={(by) => set(mix.id, { by: by as Mix['by'] })}
                    />
                  </td>
                  <td data-col="wants" data-label="Wants to hear">
                    <WordField
                      {...word}
                      most={4000}
                      label={`Wants to hear, mix ${at + 1}`}
                      value={mix.wants ?? ''}
                      onCommit={(wants) => set(mix.id, { wants: wants === '' ? undefined : wants })}
                    />
                  </td>
                  <td data-label="Heard at">
                    {hearing(setup, mix.id)
                      .map(({ name, gear }) => name || gear)
                      .join(', ') || <span className="hint">nothing yet</span>}
                  </td>
                  <td data-col="act">
                    <RowButtons
                      what={`mix ${at + 1}`}
                      isFirst={at === 0}
                      isLast={at === mixes.length - 1}
                      isReadOnly={isReadOnly}
                      onMove={(by) => rows.move(mix.id, by, by < 0 ? 'up' : 'down')}
                      onRemove={() => remove(mix, at)}
                    />
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <div className="parts-head">
        <Button className="button" isDisabled={isReadOnly || mixes.length >= LIMITS.mixes} onPress={add}>
          <Plus aria-hidden="true" /> Add a mix
        </Button>
        <Button
          className="button"
          isDisabled={isReadOnly || perWedge.length === 0}
          onPress={() => void run({ type: 'many', commands: mixPerWedge(now().plan, now().setup) })}
        >
          <Speaker aria-hidden="true" /> A mix for each wedge
        </Button>
        <p className="hint">Select a wedge or a person on the drawing to choose the mix that is heard there.</p>
        <span role="status">{said}</span>
      </div>
    </>
  );
}
