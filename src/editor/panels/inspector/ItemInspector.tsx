/** Everything about one drum, cymbal, pedal, throne, stand or stage item that can be dragged, in fields. */
import { gearOf } from '../../../gear/catalogue.ts';
import type { Item } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section } from '../fields/WordField.tsx';
import { sounds } from '../gear/takenAt.ts';
import { StageItemFields } from '../stage/StageItemFields.tsx';
import { TakenFields } from '../stage/TakenFields.tsx';
import { MountFields } from './MountFields.tsx';
import { ITEM } from './pieceFields.ts';
import { SizeFields } from './SizeFields.tsx';
import { TieFields } from './TieFields.tsx';

export function ItemInspector({ item }: { readonly item: Item }) {
  const panel = usePanel();
  const gear = gearOf(panel.plan.gear, item.gear);
  const here = { ...panel, item, gear };
  return (
    <>
      <Section title="Piece">
        <FieldRows table={ITEM} section="piece" of={here} />
      </Section>
      <Section title="Place">
        <FieldRows table={ITEM} section="place" of={here} />
      </Section>
      {gear?.kind === 'pedal' && gear.use === 'double' && (
        <Section title="Second pedal, from the first">
          {item.second === undefined ? (
            <PlaceSecond item={item} />
          ) : (
            <FieldRows table={ITEM} section="second" of={here} />
          )}
        </Section>
      )}
      {gear?.kind === 'stageItem' && <StageItemFields item={item} gear={gear} />}
      {gear?.kind !== 'stageItem' && gear?.kind !== 'throne' && gear?.kind !== 'bassDrum' && (
        <MountFields item={item} gear={gear} />
      )}
      {gear?.kind === 'stand' && <TieFields item={item} gear={gear} />}
      {gear !== undefined && sounds(gear) && <TakenFields item={item} gear={gear} />}
      {gear !== undefined && <SizeFields gear={gear} />}
      <Section title="Note">
        <FieldRows table={ITEM} section="note" of={here} />
      </Section>
    </>
  );
}

/** Where the second pedal stands by default: at the other foot. mm. */
const SECOND = { xMm: -450, yMm: 0, headingDeg: 0 };

function PlaceSecond({ item }: { readonly item: Item }) {
  const { setupId, run, isReadOnly } = usePanel();
  return (
    <button
      type="button"
      className="button"
      disabled={isReadOnly || item.locked === true}
      onClick={() => run({ type: 'setPiece', setup: setupId, piece: item.id, set: { second: SECOND } })}
    >
      Place the second pedal
    </button>
  );
}
