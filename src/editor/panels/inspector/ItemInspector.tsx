/** Everything about one drum, cymbal, pedal, throne, stand or stage item that can be dragged, in fields. */
import { gearOf } from '../../../gear/catalogue.ts';
import { isPlaceable, ownHeightMm, placedKind, SECOND_PEDAL, sourceOf } from '../../../gear/kinds.ts';
import type { PlaceChange, SetPiece } from '../../../plan/commands/pieces.ts';
import type { Item } from '../../../plan/schema.ts';
import { placeCarrying } from '../../state/nudge.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { angleMeasure, lengthMeasure } from '../fields/measures.ts';
import { ChoiceField, Section, SwitchField, WordField } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { gearChoices } from '../shared/gearChoices.ts';
import { StageItemFields } from '../stage/StageItemFields.tsx';
import { TakenFields } from '../stage/TakenFields.tsx';
import { MountFields } from './MountFields.tsx';
import { SizeFields } from './SizeFields.tsx';
import { TieFields } from './TieFields.tsx';

export function ItemInspector({ item }: { readonly item: Item }) {
  const { plan, setup, setupId, units, carries, run, isReadOnly } = usePanel();
  const gear = gearOf(plan.gear, item.gear);
  const isFixed = isReadOnly || item.locked === true;
  const place = (change: PlaceChange) => (gesture?: string) =>
    run(placeCarrying(setup, item, change, carries), gesture);
  const set = (fields: SetPiece['set'], gesture?: string) =>
    run({ type: 'setPiece', setup: setupId, piece: item.id, set: fields }, gesture);
  const length = lengthMeasure(units);
  const height = lengthMeasure(units, { least: 0, most: 5000 });
  const angle = angleMeasure();
  const kind = gear !== undefined && isPlaceable(gear) ? placedKind(gear) : null;
  const second = item.second;
  const own = ownHeightMm(gear);

  return (
    <>
      <Section title="Piece">
        <WordField
          label="Name"
          value={item.name}
          most={120}
          isReadOnly={isReadOnly}
          onCommit={(name) => run({ type: 'renamePiece', setup: setupId, piece: item.id, name })}
        />
        <ChoiceField
          label="Gear"
          value={item.gear}
          isReadOnly={isFixed}
          choices={gearChoices(gearOfPlan(plan), (one) => gear === undefined || one.kind === gear.kind, item.gear)}
          onCommit={(id) => set({ gear: id })}
        />
        <SwitchField
          label="Locked in place"
          value={item.locked === true}
          isReadOnly={isReadOnly}
          onCommit={(locked) => void set({ locked: locked ? true : null })}
        />
      </Section>

      <Section title="Place">
        <div className="field-grid">
          <MeasureField
            label="From centre"
            note="+ left"
            value={item.place.xMm}
            measure={length}
            isReadOnly={isFixed}
            onCommit={(xMm, gesture) => place({ xMm })(gesture)}
          />
          <MeasureField
            label="Upstage"
            value={item.place.yMm}
            measure={length}
            isReadOnly={isFixed}
            onCommit={(yMm, gesture) => place({ yMm })(gesture)}
          />
          <MeasureField
            label="Heading"
            value={item.place.headingDeg}
            measure={angle}
            isReadOnly={isFixed}
            onCommit={(headingDeg, gesture) => place({ headingDeg })(gesture)}
          />
          {kind?.heightWord != null && (
            <MeasureField
              label={kind.heightWord}
              value={item.place.heightMm ?? null}
              otherwise={own ?? undefined}
              measure={height}
              isReadOnly={isFixed}
              onCommit={(heightMm, gesture) => place({ heightMm })(gesture)}
              onClear={() => place({ heightMm: null })()}
            />
          )}
          {kind?.mayTilt && (
            <MeasureField
              label="Tilt"
              note="back edge down"
              value={item.place.tiltDeg ?? null}
              otherwise={0}
              measure={angleMeasure({ least: -90, most: 90 })}
              isReadOnly={isFixed}
              onCommit={(tiltDeg, gesture) => place({ tiltDeg })(gesture)}
              onClear={() => place({ tiltDeg: null })()}
            />
          )}
          {gear?.kind === 'stand' && (gear.base.form === 'tripod' || gear.base.form === 'twoLeg') && (
            <MeasureField
              label="Legs turned"
              value={item.legsTurnDeg ?? null}
              otherwise={0}
              measure={angle}
              isReadOnly={isFixed}
              onCommit={(legsTurnDeg, gesture) => set({ legsTurnDeg }, gesture)}
              onClear={() => set({ legsTurnDeg: null })}
            />
          )}
        </div>
      </Section>

      {gear?.kind === 'pedal' && gear.use === 'double' && (
        <Section title="Second pedal, from the first">
          {second === undefined ? (
            <button
              type="button"
              className="button"
              disabled={isFixed}
              onClick={() => set({ second: { ...SECOND_PEDAL } })}
            >
              Place the second pedal
            </button>
          ) : (
            <div className="field-grid">
              <MeasureField
                label="To its side"
                value={second.xMm}
                measure={length}
                isReadOnly={isFixed}
                onCommit={(xMm, gesture) => set({ second: { ...second, xMm } }, gesture)}
              />
              <MeasureField
                label="Upstage"
                value={second.yMm}
                measure={length}
                isReadOnly={isFixed}
                onCommit={(yMm, gesture) => set({ second: { ...second, yMm } }, gesture)}
              />
              <MeasureField
                label="Turned"
                value={second.headingDeg}
                measure={angle}
                isReadOnly={isFixed}
                onCommit={(headingDeg, gesture) => set({ second: { ...second, headingDeg } }, gesture)}
              />
            </div>
          )}
        </Section>
      )}

      {gear?.kind === 'stageItem' && <StageItemFields item={item} use={gear.use} onSet={set} />}
      {kind?.mayHang !== false && (
        <MountFields item={item} isFixed={isReadOnly} onMount={(mount, gesture) => set({ mount }, gesture)} />
      )}
      {kind?.mayBeTied && (
        <TieFields item={item} isFixed={isReadOnly} onTies={(ties, gesture) => set({ ties }, gesture)} />
      )}
      {gear !== undefined && sourceOf(gear) !== null && <TakenFields item={item} gear={gear} />}
      {gear !== undefined && isPlaceable(gear) && <SizeFields gear={gear} />}
      <Section title="Note">
        <WordField
          label="Note"
          value={item.note ?? ''}
          most={4000}
          lines={2}
          mayBeEmpty
          isReadOnly={isReadOnly}
          onCommit={(note) => set({ note: note === '' ? null : note })}
        />
      </Section>
    </>
  );
}
