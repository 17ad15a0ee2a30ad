/** Cable runs as notes on the drawing: each a line of points, at a piece or at a place. */

import { Plus, Trash2 } from 'lucide-react';
import { gearOf } from '../../../gear/catalogue.ts';
import { type Cable, LIMITS } from '../../../plan/schema.ts';
import { runLengthMm } from '../../../plan/stages.ts';
import { formatLength } from '../../../units.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRow, FieldRows } from '../fields/FieldRows.tsx';
import { NONE } from '../fields/rows.ts';
import { ChoiceField } from '../fields/WordField.tsx';
import { IconButton } from '../shared/IconButton.tsx';
import { TextButton } from '../shared/TextButton.tsx';
import { without } from './listEdits.ts';
import { CABLE, type CableHere, setCable } from './listFields.ts';
import { CORNER } from './stageFields.ts';
import { newCable } from './stageLists.ts';
import { useLists } from './useLists.ts';

export function CablesPanel() {
  const { setup, setupId, isReadOnly } = usePanel();
  const { now, write } = useLists();
  const cables = setup.cables ?? [];
  const list = (): readonly Cable[] => now().setup.cables ?? [];
  return (
    <>
      {cables.length === 0 && (
        <p className="hint">
          No cable runs yet. They are notes on the drawing and on the venue sheet: the multicore, the power, the drive
          line.
        </p>
      )}
      {cables.map((cable, at) => (
        <Run
          key={cable.id}
          here={{ setupId, list, at, cable }}
          onRemove={() => {
            const left = without(list(), cable.id);
            write({ cables: left.length > 0 ? left : null });
          }}
        />
      ))}
      <div className="parts-head">
        <TextButton
          icon={Plus}
          isDisabled={isReadOnly || cables.length >= LIMITS.cables}
          onPress={() => void write({ cables: [...list(), newCable(now().setup)] })}
        >
          Add a cable run
        </TextButton>
        <p className="hint">Cables across a way are tripped over: tape or cover them.</p>
      </div>
    </>
  );
}

interface RunProps {
  readonly here: CableHere;
  readonly onRemove: () => void;
}

function Run({ here, onRemove }: RunProps) {
  const { plan, setup, units, run, isReadOnly } = usePanel();
  const { points } = here.cable;
  const number = here.at + 1;
  const put = (corners: Cable['points']) => setCable(here, { points: corners });
  const pieces = setup.order.map((id) => setup.pieces[id]).filter((piece) => piece !== undefined);
  const nameOf = (piece: (typeof pieces)[number]) =>
    piece.name || (piece.kind === 'item' ? gearOf(plan.gear, piece.gear)?.name : undefined) || piece.id;
  const choices = [{ id: NONE, label: 'a place' }, ...pieces.map((piece) => ({ id: piece.id, label: nameOf(piece) }))];
  const addAfter = (at: number) => {
    const [a, b] = [points[at], points[at + 1] ?? points[at - 1]];
    const xMm = Math.round((a.xMm + b.xMm) / 2);
    const yMm = Math.round((a.yMm + b.yMm) / 2);
    run(put(points.toSpliced(at + 1, 0, { xMm, yMm })));
  };
  return (
    <fieldset className="part">
      <legend className="part-head">
        Cable run {number}, {formatLength(runLengthMm({ points }), units)} on the floor
        <IconButton icon={Trash2} label={`Remove cable run ${number}`} isDisabled={isReadOnly} onPress={onRemove} />
      </legend>
      <FieldRows table={CABLE} section="run" of={here} />
      <ol className="run-points">
        {points.map((point, at) => {
          const piece = pieces.find(({ place }) => place.xMm === point.xMm && place.yMm === point.yMm);
          const where = at === 0 ? 'Start' : at === points.length - 1 ? 'End' : `Point ${at + 1}`;
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a point is its place in the run
            <li key={at}>
              <ChoiceField
                label={`${where}, at`}
                value={piece?.id ?? NONE}
                choices={choices}
                isReadOnly={isReadOnly}
                onCommit={(id) => {
                  const place = pieces.find((one) => one.id === id)?.place;
                  return place === undefined ? null : run(put(points.with(at, { xMm: place.xMm, yMm: place.yMm })));
                }}
              />
              {CORNER.sections.point.map((row) => (
                <FieldRow key={row.path} table={CORNER} row={row} of={{ corners: points, at, put }} />
              ))}
              <span className="row-buttons">
                <IconButton
                  icon={Plus}
                  label={`Add a point after point ${at + 1} of cable run ${number}`}
                  isDisabled={isReadOnly || at === points.length - 1 || points.length >= LIMITS.corners}
                  onPress={() => addAfter(at)}
                />
                <IconButton
                  icon={Trash2}
                  label={`Remove point ${at + 1} of cable run ${number}`}
                  isDisabled={isReadOnly || points.length === 2}
                  onPress={() => void run(put(points.toSpliced(at, 1)))}
                />
              </span>
            </li>
          );
        })}
      </ol>
    </fieldset>
  );
}
