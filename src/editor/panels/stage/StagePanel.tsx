/** Tonight's stage: which one, its outline, centre line and wings; and the way to the lists that the venue reads. */

import { ListChecks, Plus, Trash2 } from 'lucide-react';
import { useState } from 'react';
import { inputList, withoutChannel } from '../../../lists/inputList.ts';
import { powerOf } from '../../../lists/power.ts';
import { stageItems } from '../../../lists/stageItems.ts';
import type { Command } from '../../../plan/commands/index.ts';
import { LIMITS, type Stage } from '../../../plan/schema.ts';
import { powerText } from '../../../words/stageWords.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRow, FieldRows } from '../fields/FieldRows.tsx';
import { NONE } from '../fields/rows.ts';
import { ChoiceField, Section, SwitchField } from '../fields/WordField.tsx';
import { orNone } from '../shared/gearChoices.ts';
import { Readings } from '../shared/Readings.tsx';
import { TextButton } from '../shared/TextButton.tsx';
import { boxOf, type Corner, newStage, type Wing, withCorner } from './stageEdits.ts';
import { CORNER, STAGE } from './stageFields.ts';
import './stage.css';
import { IconButton } from '../shared/IconButton.tsx';

const NEW = '+new';

export interface StagePanelProps {
  /** Opens the lists for the venue. */
  readonly onLists: () => void;
}

export function StagePanel({ onLists }: StagePanelProps) {
  const { editor, plan, setup, setupId, run, isReadOnly } = usePanel();
  const stages = Object.values(plan.stages ?? {});
  const stage = setup.stage == null ? undefined : plan.stages?.[setup.stage];
  const choose = (id: string) => {
    if (id !== NEW) return run({ type: 'setStage', setup: setupId, stage: id === NONE ? null : id });
    const made = newStage(plan, setup);
    const refusal = run({
      type: 'many',
      commands: [
        { type: 'addStage', stage: made },
        { type: 'setStage', setup: setupId, stage: made.id },
      ],
    });
    // It is much larger than the kit, and nobody should have to look for it.
    if (refusal === null) editor.fitStage();
    return refusal;
  };
  return (
    <>
      <ForTheVenue onLists={onLists} />
      <Section title="Stage">
        <ChoiceField
          label="Stage"
          hideLabel
          value={setup.stage ?? NONE}
          isReadOnly={isReadOnly}
          choices={[
            ...orNone(
              stages.map(({ id, name }) => ({ id, label: name })),
              'None drawn',
            ),
            { id: NEW, label: 'A new stage …' },
          ]}
          onCommit={choose}
        />
        {stage === undefined && (
          <p className="hint">The stage’s edge, centre line and wings, as the venue gives them.</p>
        )}
      </Section>
      {stage !== undefined && <StageFields key={stage.id} stage={stage} />}
    </>
  );
}

/** The lists in one look, and the door to them. */
function ForTheVenue({ onLists }: StagePanelProps) {
  const { plan, setup } = usePanel();
  const count = inputList(plan, setup).length;
  const missing = withoutChannel(plan, setup);
  const mixes = setup.mixes?.length ?? 0;
  const drops = stageItems(plan, setup, 'power');
  return (
    <Section title="Inputs, mixes, power">
      <Readings
        rows={[
          [
            'Input list',
            `${count} ${count === 1 ? 'channel' : 'channels'}${setup.inputs === undefined ? ', proposed' : ''}`,
          ],
          ['Monitor mixes', mixes === 0 ? 'none' : mixes],
        ]}
      />
      {missing.length > 0 && <p className="hint">Not on the list: {missing.join(', ')}.</p>}
      {drops.length > 0 && <p className="hint">{powerText(powerOf(plan, drops))}</p>}
      <TextButton icon={ListChecks} onPress={onLists}>
        Stage and inputs …
      </TextButton>
    </Section>
  );
}

function StageFields({ stage }: { readonly stage: Stage }) {
  const { run, isReadOnly } = usePanel();
  const box = boxOf(stage.outline);
  const [byCorners, setByCorners] = useState(false);
  const here = { stage };
  const edit = (set: Partial<Omit<Stage, 'id'>>) => ({ type: 'editStage' as const, stage: stage.id, set });
  const putWings = (wings: Wing[]) => edit({ wings });
  const showsCorners = byCorners || box === null;
  return (
    <>
      <Section
        title="Outline"
        actions={
          <IconButton
            icon={Trash2}
            label="Remove this stage from the plan"
            isDisabled={isReadOnly}
            onPress={() => run({ type: 'removeStage', stage: stage.id })}
          />
        }
      >
        <FieldRows table={STAGE} section="name" of={here} />
        {!showsCorners && <FieldRows table={STAGE} section="box" of={here} />}
        <FieldRows table={STAGE} section="centre" of={here} />
        {box !== null && (
          <SwitchField label="By its corners" value={byCorners} onCommit={setByCorners} isReadOnly={isReadOnly} />
        )}
      </Section>
      {showsCorners && (
        <>
          <Corners what="stage" outline={stage.outline} put={(outline) => edit({ outline })} />
          {stage.wings.map((wing) => (
            <Corners
              key={wing.id}
              what={wing.name || 'wing'}
              outline={wing.outline}
              put={(outline) => putWings(stage.wings.map((one) => (one.id === wing.id ? { ...one, outline } : one)))}
              onRemove={() => run(putWings(stage.wings.filter(({ id }) => id !== wing.id)))}
            />
          ))}
        </>
      )}
    </>
  );
}

interface CornersProps {
  readonly what: string;
  readonly outline: readonly Corner[];
  readonly put: (outline: Corner[]) => Command;
  readonly onRemove?: () => void;
}

function Corners({ what, outline, put, onRemove }: CornersProps) {
  const { run, isReadOnly } = usePanel();
  return (
    <Section
      title={`Corners, ${what}`}
      actions={
        onRemove && <IconButton icon={Trash2} label={`Remove ${what}`} isDisabled={isReadOnly} onPress={onRemove} />
      }
    >
      <ol className="corner-list">
        {outline.map((_, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a corner is its place in the outline
          <li key={at} className="field-line">
            {CORNER.sections.corner.map((row) => (
              <FieldRow key={row.path} table={CORNER} row={row} of={{ corners: outline, at, put }} />
            ))}
            <IconButton
              icon={Plus}
              label={`Add a corner after corner ${at + 1}`}
              isDisabled={isReadOnly || outline.length >= LIMITS.corners}
              onPress={() => void run(put(withCorner(outline, at)))}
            />
            <IconButton
              icon={Trash2}
              label={`Remove corner ${at + 1}`}
              isDisabled={isReadOnly || outline.length === 3}
              onPress={() => void run(put(outline.toSpliced(at, 1)))}
            />
          </li>
        ))}
      </ol>
    </Section>
  );
}
