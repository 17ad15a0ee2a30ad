/** The input list, every cell a field: proposed from the kit until the first change, then the setup's own. */

import { ListPlus, Plus, RefreshCw } from 'lucide-react';
import { useId } from 'react';
import { inputList, missingInputs, proposedInputs, withoutChannel } from '../../../lists/inputList.ts';
import { type Input, LIMITS } from '../../../plan/schema.ts';
import { pieceName } from '../../../words/names.ts';
import { usePanel } from '../../state/panelContext.ts';
import { NONE } from '../fields/rows.ts';
import { TextButton } from '../shared/TextButton.tsx';
import { nextId } from './listEdits.ts';
import { INPUT } from './listFields.ts';
import { RowTable } from './RowTable.tsx';
import { useLines } from './useLines.ts';
import { useLists } from './useLists.ts';

/** Words to choose from; anything else can be typed. Generic on purpose. */
const WORDS = {
  device: [
    'large-diaphragm dynamic',
    'dynamic, cardioid',
    'vocal dynamic',
    'clip-on condenser',
    'small-diaphragm condenser',
    'large-diaphragm condenser',
    'boundary microphone',
    'DI, active',
    'DI, passive',
  ],
  stand: ['short boom', 'boom', 'tall boom', 'clip', 'round-base stand', 'none'],
};

export function InputsTable() {
  const { plan, setup, setupId, isReadOnly } = usePanel();
  const { now, write } = useLists();
  const words = { device: useId(), stand: useId() };
  const channels = inputList(plan, setup);
  const missing = withoutChannel(plan, setup);
  const list = (): readonly Input[] => {
    const at = now();
    return at.setup.inputs ?? proposedInputs(at.plan, at.setup);
  };
  const edits = useLines<Input>({
    list,
    put: (inputs) => write({ inputs }),
    idOf: ({ id }) => id,
    whenMoved: ({ source }, _, to) => `${source || 'The line'} is channel ${to + 1} now.`,
    whenGone: ({ source }) => `${source || 'The line'} is off the list.`,
  });
  const add = () => {
    const old = list();
    edits.add({ id: nextId('in', old), source: `Input ${old.length + 1}`, by: 'microphone' }, 'source');
  };
  const addMissing = () => {
    const at = now();
    write({ inputs: [...list(), ...missingInputs(at.plan, at.setup)] });
    edits.say(`Added: ${missing.join(', ')}.`);
  };

  const pieces = setup.order.map((id) => setup.pieces[id]).filter((piece) => piece?.kind === 'item');
  const choices = (chosen: string | undefined) => [
    { id: NONE, label: 'no one piece' },
    ...pieces.map(({ id }) => ({ id, label: pieceName(plan, setupId, id) })),
    ...(chosen !== undefined && !Object.hasOwn(setup.pieces, chosen)
      ? [{ id: chosen, label: 'a piece that is gone' }]
      : []),
  ];
  return (
    <>
      <div className="parts-head">
        <p>
          {setup.inputs === undefined
            ? 'Proposed from the kit and the stage, and kept up with them until you change a line. Common practice: the sound engineer has the last word.'
            : 'Your own list for this setup.'}
        </p>
        <TextButton
          icon={RefreshCw}
          isDisabled={isReadOnly || setup.inputs === undefined}
          onPress={() => void write({ inputs: null })}
        >
          Propose anew
        </TextButton>
      </div>
      {missing.length > 0 && (
        <div className="parts-head stage-missing">
          <p>Not on the list: {missing.join(', ')}.</p>
          <TextButton icon={ListPlus} isDisabled={isReadOnly} onPress={addMissing}>
            Add {missing.length === 1 ? 'it' : 'them'}
          </TextButton>
        </div>
      )}
      {(['device', 'stand'] as const).map((key) => (
        <datalist key={key} id={words[key]}>
          {WORDS[key].map((word) => (
            <option key={word} value={word} />
          ))}
        </datalist>
      ))}
      {channels.length === 0 ? (
        <p className="hint">
          Nothing on this list yet. Put drums, microphones or DI boxes on the drawing, or add a line.
        </p>
      ) : (
        <RowTable
          caption={`Input list of ${setup.name}`}
          className="inputs-table"
          numberHead="No."
          table={INPUT}
          lines={channels.map((channel, at) => ({
            setupId,
            list,
            at,
            channel,
            pieces: choices(channel.piece),
            words,
          }))}
          idOf={({ channel }) => channel.id}
          what="channel"
          edits={edits}
        />
      )}
      <div className="parts-head">
        <TextButton icon={Plus} isDisabled={isReadOnly || channels.length >= LIMITS.inputs} onPress={add}>
          Add a line
        </TextButton>
        <p className="hint">Alt with ↑ or ↓ moves a line; ↑ and ↓ go from line to line.</p>
        <span role="status">{edits.said}</span>
      </div>
    </>
  );
}
