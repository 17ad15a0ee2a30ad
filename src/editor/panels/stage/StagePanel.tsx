/** Tonight's stage: which one, its outline, centre line and wings; and the way to the lists that the venue reads. */

import { ListChecks, Plus, Trash2 } from 'lucide-react';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { inputList, withoutChannel } from '../../../lists/inputList.ts';
import { powerOf } from '../../../lists/power.ts';
import { stageItems } from '../../../lists/stageItems.ts';
import { LIMITS, type Stage } from '../../../plan/schema.ts';
import { powerText } from '../../../words/stageWords.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { lengthMeasure } from '../fields/measures.ts';
import { ChoiceField, Section, SwitchField, WordField } from '../fields/WordField.tsx';
import { NONE, orNone } from '../shared/gearChoices.ts';
import {
  boxOf,
  type Corner,
  newStage,
  type Side,
  type StageBox,
  wingWidth,
  withBox,
  withCorner,
  withWing,
} from './stageEdits.ts';

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
  const channels = inputList(plan, setup);
  const missing = withoutChannel(plan, setup);
  const mixes = setup.mixes?.length ?? 0;
  const drops = stageItems(plan, setup, 'power');
  return (
    <Section title="Inputs, mixes, power">
      <dl className="readings">
        <div>
          <dt>Input list</dt>
          <dd>
            {channels.length} {channels.length === 1 ? 'channel' : 'channels'}
            {setup.inputs === undefined && ', proposed'}
          </dd>
        </div>
        <div>
          <dt>Monitor mixes</dt>
          <dd>{mixes === 0 ? 'none' : mixes}</dd>
        </div>
      </dl>
      {missing.length > 0 && <p className="hint">Not on the list: {missing.join(', ')}.</p>}
      {drops.length > 0 && <p className="hint">{powerText(powerOf(plan, drops))}</p>}
      <Button className="button" onPress={onLists}>
        <ListChecks aria-hidden="true" /> Stage and inputs …
      </Button>
    </Section>
  );
}

function StageFields({ stage }: { readonly stage: Stage }) {
  const { units, run, isReadOnly } = usePanel();
  const box = boxOf(stage.outline);
  const [byCorners, setByCorners] = useState(false);
  const edit = (set: Partial<Omit<Stage, 'id'>>, gesture?: string) =>
    run({ type: 'editStage', stage: stage.id, set }, gesture);
  const asBox = (change: Partial<StageBox>) => (box === null ? {} : withBox(stage, { ...box, ...change }));
  const length = lengthMeasure(units);
  const size = lengthMeasure(units, { least: 500, most: 50_000 });
  const wide = lengthMeasure(units, { least: 0, most: 20_000 });
  const showsCorners = byCorners || box === null;
  const wings = (['left', 'right'] as const).map((side) => ({ side, width: wingWidth(stage, side) }));
  return (
    <>
      <Section
        title="Outline"
        actions={
          <Button
            className="icon-button"
            aria-label="Remove this stage from the plan"
            isDisabled={isReadOnly}
            onPress={() => run({ type: 'removeStage', stage: stage.id })}
          >
            <Trash2 />
          </Button>
        }
      >
        <WordField
          label="Name"
          value={stage.name}
          most={120}
          isReadOnly={isReadOnly}
          onCommit={(name) => edit({ name })}
        />
        {box !== null && !showsCorners && (
          <div className="field-grid">
            <MeasureField
              label="Width"
              value={box.widthMm}
              measure={size}
              isReadOnly={isReadOnly}
              onCommit={(widthMm, gesture) => edit(asBox({ widthMm }), gesture)}
            />
            <MeasureField
              label="Depth"
              value={box.depthMm}
              measure={size}
              isReadOnly={isReadOnly}
              onCommit={(depthMm, gesture) => edit(asBox({ depthMm }), gesture)}
            />
            <MeasureField
              label="Middle"
              note="+ left"
              value={box.middleXMm}
              measure={length}
              isReadOnly={isReadOnly}
              onCommit={(middleXMm, gesture) => edit(asBox({ middleXMm }), gesture)}
            />
            <MeasureField
              label="Front edge"
              note="+ upstage"
              value={box.frontYMm}
              measure={length}
              isReadOnly={isReadOnly}
              onCommit={(frontYMm, gesture) => edit(asBox({ frontYMm }), gesture)}
            />
            {wings.map(({ side, width }) =>
              width === null ? null : (
                <MeasureField
                  key={side}
                  label={`Wing, stage ${side}`}
                  note={width === 0 ? 'none' : undefined}
                  value={width === 0 ? null : width}
                  measure={wide}
                  isReadOnly={isReadOnly}
                  onCommit={(mm, gesture) => edit({ wings: withWing(stage, side as Side, mm) }, gesture)}
                  onClear={() => edit({ wings: withWing(stage, side as Side, 0) })}
                />
              ),
            )}
          </div>
        )}
        <div className="field-grid">
          <MeasureField
            label="Centre line"
            note="+ left"
            value={stage.centreXMm}
            measure={length}
            isReadOnly={isReadOnly}
            onCommit={(centreXMm, gesture) => edit({ centreXMm }, gesture)}
          />
        </div>
        {box !== null && (
          <SwitchField label="By its corners" value={byCorners} onCommit={setByCorners} isReadOnly={isReadOnly} />
        )}
      </Section>
      {showsCorners && (
        <>
          <Corners what="stage" outline={stage.outline} onSet={(outline, gesture) => edit({ outline }, gesture)} />
          {stage.wings.map((wing) => (
            <Corners
              key={wing.id}
              what={wing.name || 'wing'}
              outline={wing.outline}
              onSet={(outline, gesture) =>
                edit({ wings: stage.wings.map((one) => (one.id === wing.id ? { ...one, outline } : one)) }, gesture)
              }
              onRemove={() => edit({ wings: stage.wings.filter(({ id }) => id !== wing.id) })}
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
  readonly onSet: (outline: Corner[], gesture?: string) => string | null;
  readonly onRemove?: () => void;
}

function Corners({ what, outline, onSet, onRemove }: CornersProps) {
  const { units, isReadOnly } = usePanel();
  const measure = lengthMeasure(units);
  const put = (at: number, change: Partial<Corner>, gesture?: string) =>
    onSet(
      outline.map((corner, i) => (i === at ? { ...corner, ...change } : corner)),
      gesture,
    );
  return (
    <Section
      title={`Corners, ${what}`}
      actions={
        onRemove && (
          <Button className="icon-button" aria-label={`Remove ${what}`} isDisabled={isReadOnly} onPress={onRemove}>
            <Trash2 />
          </Button>
        )
      }
    >
      <ol className="corner-list">
        {outline.map((corner, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a corner is its place in the outline
          <li key={at} className="limit-row">
            <MeasureField
              label={`Corner ${at + 1}, from centre`}
              value={corner.xMm}
              measure={measure}
              isReadOnly={isReadOnly}
              onCommit={(xMm, gesture) => put(at, { xMm }, gesture)}
            />
            <MeasureField
              label="Upstage"
              value={corner.yMm}
              measure={measure}
              isReadOnly={isReadOnly}
              onCommit={(yMm, gesture) => put(at, { yMm }, gesture)}
            />
            <Button
              className="icon-button"
              aria-label={`Add a corner after corner ${at + 1}`}
              isDisabled={isReadOnly || outline.length >= LIMITS.corners}
              onPress={() => void onSet(withCorner(outline, at))}
            >
              <Plus />
            </Button>
            <Button
              className="icon-button"
              aria-label={`Remove corner ${at + 1}`}
              isDisabled={isReadOnly || outline.length === 3}
              onPress={() => void onSet(outline.toSpliced(at, 1))}
            >
              <Trash2 />
            </Button>
          </li>
        ))}
      </ol>
    </Section>
  );
}
