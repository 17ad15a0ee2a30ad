/** Cable runs as notes on the drawing: each a line of points, at a piece or at a place. */

import { Plus, Trash2 } from 'lucide-react';
import { Button } from 'react-aria-components';
import { gearOf } from '../../../gear/catalogue.ts';
import { type Cable, LIMITS } from '../../../plan/schema.ts';
import { runLengthMm } from '../../../plan/stages.ts';
import { formatLength } from '../../../units.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { lengthMeasure } from '../fields/measures.ts';
import { ChoiceField, WordField } from '../fields/WordField.tsx';
import { NONE } from '../shared/gearChoices.ts';
import { changed, without } from './listEdits.ts';
import { newCable } from './stageLists.ts';
import { useLists } from './useLists.ts';

export function CablesPanel() {
  const { setup, isReadOnly } = usePanel();
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
          cable={cable}
          number={at + 1}
          onSet={(change, gesture) => write({ cables: changed(list(), cable.id, change) }, gesture)}
          onRemove={() => {
            const left = without(list(), cable.id);
            write({ cables: left.length > 0 ? left : null });
          }}
        />
      ))}
      <div className="parts-head">
        <Button
          className="button"
          isDisabled={isReadOnly || cables.length >= LIMITS.cables}
          onPress={() => void write({ cables: [...list(), newCable(now().setup)] })}
        >
          <Plus aria-hidden="true" /> Add a cable run
        </Button>
        <p className="hint">Cables across a way are tripped over: tape or cover them.</p>
      </div>
    </>
  );
}

interface RunProps {
  readonly cable: Cable;
  readonly number: number;
  readonly onSet: (change: Partial<Cable>, gesture?: string) => string | null;
  readonly onRemove: () => void;
}

function Run({ cable, number, onSet, onRemove }: RunProps) {
  const { plan, setup, units, isReadOnly } = usePanel();
  const { points } = cable;
  const pieces = setup.order.map((id) => setup.pieces[id]).filter((piece) => piece !== undefined);
  const nameOf = (piece: (typeof pieces)[number]) =>
    piece.name || (piece.kind === 'item' ? gearOf(plan.gear, piece.gear)?.name : undefined) || piece.id;
  const choices = [{ id: NONE, label: 'a place' }, ...pieces.map((piece) => ({ id: piece.id, label: nameOf(piece) }))];
  const put = (at: number, change: Partial<Cable['points'][number]>, gesture?: string) =>
    onSet({ points: points.map((point, i) => (i === at ? { ...point, ...change } : point)) }, gesture);
  const addAfter = (at: number) => {
    const [a, b] = [points[at], points[at + 1] ?? points[at - 1]];
    const xMm = Math.round((a.xMm + b.xMm) / 2);
    const yMm = Math.round((a.yMm + b.yMm) / 2);
    return onSet({ points: points.toSpliced(at + 1, 0, { xMm, yMm }) });
  };
  const measure = lengthMeasure(units);
  return (
    <fieldset className="part">
      <legend className="part-head">
        Cable run {number}, {formatLength(runLengthMm({ points }), units)} on the floor
        <Button
          className="icon-button"
          aria-label={`Remove cable run ${number}`}
          isDisabled={isReadOnly}
          onPress={onRemove}
        >
          <Trash2 />
        </Button>
      </legend>
      <WordField
        label="Note"
        most={120}
        value={cable.note}
        isReadOnly={isReadOnly}
        onCommit={(note) => onSet({ note })}
      />
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
                  return place === undefined ? null : put(at, { xMm: place.xMm, yMm: place.yMm });
                }}
              />
              <MeasureField
                label="From centre"
                note="+ left"
                value={point.xMm}
                measure={measure}
                isReadOnly={isReadOnly}
                onCommit={(xMm, gesture) => put(at, { xMm }, gesture)}
              />
              <MeasureField
                label="Upstage"
                value={point.yMm}
                measure={measure}
                isReadOnly={isReadOnly}
                onCommit={(yMm, gesture) => put(at, { yMm }, gesture)}
              />
              <span className="row-buttons">
                <Button
                  className="icon-button"
                  aria-label={`Add a point after point ${at + 1} of cable run ${number}`}
                  isDisabled={isReadOnly || at === points.length - 1 || points.length >= LIMITS.corners}
                  onPress={() => void addAfter(at)}
                >
                  <Plus />
                </Button>
                <Button
                  className="icon-button"
                  aria-label={`Remove point ${at + 1} of cable run ${number}`}
                  isDisabled={isReadOnly || points.length === 2}
                  onPress={() => void onSet({ points: points.toSpliced(at, 1) })}
                >
                  <Trash2 />
                </Button>
              </span>
            </li>
          );
        })}
      </ol>
    </fieldset>
  );
}
