/** The input list, every cell a field: proposed from the kit until the first change, then the setup's own. */
import { ListPlus, Plus, RefreshCw } from 'lucide-react';
import { useId, useState } from 'react';
import { Button } from 'react-aria-components';
import { gearOf } from '../../../gear/catalogue.ts';
import { type Channel, inputList, missingInputs, proposedInputs, withoutChannel } from '../../../lists/inputList.ts';
import { type Input, LIMITS } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { ChoiceField, WordField } from '../fields/WordField.tsx';
import { NONE } from '../shared/gearChoices.ts';
import { changed, indexOfId, moved, nextId, without } from './listEdits.ts';
import { RowButtons } from './RowButtons.tsx';
import { useLists } from './useLists.ts';
import { useRows } from './useRows.ts';

const BY = [
  { id: 'microphone', label: 'Microphone' },
  { id: 'di', label: 'DI' },
  { id: 'line', label: 'Line' },
];

/** Words to choose from; anything else can be typed. Generic on purpose. */
const DEVICES = [
  'large-diaphragm dynamic',
  'dynamic, cardioid',
  'vocal dynamic',
  'clip-on condenser',
  'small-diaphragm condenser',
  'large-diaphragm condenser',
  'boundary microphone',
  'DI, active',
  'DI, passive',
];
const STANDS = ['short boom', 'boom', 'tall boom', 'clip', 'round-base stand', 'none'];

export function InputsTable() {
  const { plan, setup, isReadOnly } = usePanel();
  const { now, write } = useLists();
  const [said, setSaid] = useState('');
  const devices = useId();
  const stands = useId();
  const channels = inputList(plan, setup);
  const missing = withoutChannel(plan, setup);

  const edit = (change: (list: readonly Input[]) => readonly Input[], gesture?: string) => {
    const at = now();
    const list = at.setup.inputs ?? proposedInputs(at.plan, at.setup);
    const next = change(list);
    return next === list ? null : write({ inputs: next }, gesture);
  };
  const set = (id: string, change: Partial<Input>) => edit((list) => changed(list, id, change));
  const rows = useRows((id, by) => {
    const at = now();
    const list = at.setup.inputs ?? proposedInputs(at.plan, at.setup);
    const next = moved(list, indexOfId(list, id), by);
    if (next === list) return null;
    write({ inputs: next });
    const index = indexOfId(next, id);
    setSaid(`${next[index].source || 'The line'} is channel ${index + 1} now.`);
    return id;
  });
  const remove = (channel: Channel) => {
    const beside = channels[channel.number] ?? channels[channel.number - 2];
    edit((list) => without(list, channel.id));
    if (beside !== undefined) rows.keep({ row: beside.id, col: 'remove' });
    setSaid(`${channel.source || 'The line'} is off the list.`);
  };
  const add = () =>
    edit((list) => {
      const id = nextId('in', list);
      rows.keep({ row: id, col: 'source' });
      return [...list, { id, source: `Input ${list.length + 1}`, by: 'microphone' as const }];
    });
  const addMissing = () => {
    const at = now();
    edit((list) => [...list, ...missingInputs(at.plan, at.setup)]);
    setSaid(`Added: ${missing.join(', ')}.`);
  };

  const pieces = setup.order.map((id) => setup.pieces[id]).filter((piece) => piece?.kind === 'item');
  const choices = (chosen: string | undefined) => [
    { id: NONE, label: 'no one piece' },
    ...pieces.map((piece) => ({
      id: piece.id,
      label: piece.name || (gearOf(plan.gear, piece.gear)?.name ?? piece.id),
    })),
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
        <Button
          className="button"
          isDisabled={isReadOnly || setup.inputs === undefined}
          onPress={() => void write({ inputs: null })}
        >
          <RefreshCw aria-hidden="true" /> Propose anew
        </Button>
      </div>
      {missing.length > 0 && (
        <div className="parts-head stage-missing">
          <p>Not on the list: {missing.join(', ')}.</p>
          <Button className="button" isDisabled={isReadOnly} onPress={addMissing}>
            <ListPlus aria-hidden="true" /> Add {missing.length === 1 ? 'it' : 'them'}
          </Button>
        </div>
      )}
      <datalist id={devices}>
        {DEVICES.map((word) => (
          <option key={word} value={word} />
        ))}
      </datalist>
      <datalist id={stands}>
        {STANDS.map((word) => (
          <option key={word} value={word} />
        ))}
      </datalist>
      {channels.length === 0 ? (
        <p className="hint">
          Nothing on this list yet. Put drums, microphones or DI boxes on the drawing, or add a line.
        </p>
      ) : (
        <div ref={rows.box} onKeyDownCapture={rows.onKeyDownCapture}>
          <table className="row-table inputs-table">
            <caption className="unseen">Input list of {setup.name}</caption>
            <thead>
              <tr>
                <th scope="col">No.</th>
                <th scope="col">Source</th>
                <th scope="col">Takes</th>
                <th scope="col">By</th>
                <th scope="col">Microphone or DI</th>
                <th scope="col">Stand</th>
                <th scope="col">48 V</th>
                <th scope="col">Note</th>
                <th scope="col">
                  <span className="unseen">Move or remove</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {channels.map((channel) => (
                <Line
                  key={channel.id}
                  channel={channel}
                  count={channels.length}
                  pieces={choices(channel.piece)}
                  lists={{ devices, stands }}
                  isReadOnly={isReadOnly}
                  onSet={(change) => set(channel.id, change)}
                  onMove={(by) => rows.move(channel.id, by, by < 0 ? 'up' : 'down')}
                  onRemove={() => remove(channel)}
                />
              ))}
            </tbody>
          </table>
        </div>
      )}
      <div className="parts-head">
        <Button
          className="button"
          isDisabled={isReadOnly || channels.length >= LIMITS.inputs}
          onPress={() => void add()}
        >
          <Plus aria-hidden="true" /> Add a line
        </Button>
        <p className="hint">Alt with ↑ or ↓ moves a line; ↑ and ↓ go from line to line.</p>
        <span role="status">{said}</span>
      </div>
    </>
  );
}

interface LineProps {
  readonly channel: Channel;
  readonly count: number;
  readonly pieces: readonly { readonly id: string; readonly label: string }[];
  readonly lists: { readonly devices: string; readonly stands: string };
  readonly isReadOnly: boolean;
  readonly onSet: (change: Partial<Input>) => string | null;
  readonly onMove: (by: 1 | -1) => void;
  readonly onRemove: () => void;
}

const orNothing = (text: string): string | undefined => (text === '' ? undefined : text);

function Line({ channel, count, pieces, lists, isReadOnly, onSet, onMove, onRemove }: LineProps) {
  const { number } = channel;
  const word = { most: 120, mayBeEmpty: true, hideLabel: true, isReadOnly };
  return (
    <tr data-row={channel.id}>
      <th scope="row" className="row-number">
        {number}
      </th>
      <td data-col="source" data-label="Source">
        <WordField
          {...word}
          label={`Source, channel ${number}`}
          value={channel.source}
          onCommit={(source) => onSet({ source })}
        />
      </td>
      <td data-col="piece" data-label="Takes">
        <ChoiceField
          label={`Takes, channel ${number}`}
          hideLabel
          value={channel.piece ?? NONE}
          choices={pieces}
          isReadOnly={isReadOnly}
          onCommit={(id) => onSet({ piece: orNothing(id) })}
        />
      </td>
      <td data-col="by" data-label="By">
        <ChoiceField
          label={`By, channel ${number}`}
          hideLabel
          value={channel.by}
          choices={BY}
          isReadOnly={isReadOnly}
          onCommit={(by) => onSet({ by: by as Input['by'] })}
        />
      </td>
      <td data-col="device" data-label="Microphone or DI">
        <WordField
          {...word}
          label={`Microphone or DI, channel ${number}`}
          suggestions={lists.devices}
          value={channel.device}
          onCommit={(device) => onSet({ device: orNothing(device) })}
        />
      </td>
      <td data-col="stand" data-label="Stand">
        <WordField
          {...word}
          label={`Stand, channel ${number}`}
          suggestions={lists.stands}
          value={channel.stand}
          onCommit={(stand) => onSet({ stand: orNothing(stand) })}
        />
      </td>
      <td data-col="phantom" data-label="48 V">
        <label className="tick">
          <input
            type="checkbox"
            checked={channel.phantom}
            disabled={isReadOnly}
            onChange={(event) => void onSet({ phantom: event.target.checked ? true : undefined })}
          />
          <span className="unseen">Phantom power, channel {number}</span>
        </label>
      </td>
      <td data-col="note" data-label="Note">
        <WordField
          {...word}
          label={`Note, channel ${number}`}
          value={channel.note}
          onCommit={(note) => onSet({ note: orNothing(note) })}
        />
      </td>
      <td data-col="act">
        <RowButtons
          what={`channel ${number}`}
          isFirst={number === 1}
          isLast={number === count}
          isReadOnly={isReadOnly}
          onMove={onMove}
          onRemove={onRemove}
        />
      </td>
    </tr>
  );
}
