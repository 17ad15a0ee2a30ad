/** Everything about one drum, cymbal, pedal, throne, stand or stage item that can be dragged, in fields. */
import { gearOf } from '../../../gear/catalogue.ts';
import { isPlaceable, placedKind, sourceOf } from '../../../gear/kinds.ts';
import type { Item } from '../../../plan/schema.ts';
import { secondPedal } from '../../../plan/secondPedal.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { TextButton } from '../shared/TextButton.tsx';
import { StageItemFields } from '../stage/StageItemFields.tsx';
import { TakenFields } from '../stage/TakenFields.tsx';
import { FindMount } from './FindMount.tsx';
import { MOUNT } from './mountFields.ts';
import { ITEM } from './pieceFields.ts';
import { SizeFields } from './SizeFields.tsx';
import { TieFields } from './TieFields.tsx';

export function ItemInspector({ item }: { readonly item: Item }) {
  const panel = usePanel();
  const gear = gearOf(panel.plan.gear, item.gear);
  const kind = gear !== undefined && isPlaceable(gear) ? placedKind(gear) : null;
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
      {kind?.mayHang !== false && (
        <Section title="Held by">
          <FieldRows table={MOUNT} section="heldBy" of={{ ...here, all: gearOfPlan(panel.plan) }} />
          {!panel.isReadOnly && <FindMount item={item} />}
        </Section>
      )}
      {kind?.mayBeTied && <TieFields item={item} gear={gear} />}
      {gear !== undefined && sourceOf(gear) !== null && <TakenFields item={item} gear={gear} />}
      {gear !== undefined && isPlaceable(gear) && <SizeFields gear={gear} />}
      <Section title="Note">
        <FieldRows table={ITEM} section="note" of={here} />
      </Section>
    </>
  );
}

function PlaceSecond({ item }: { readonly item: Item }) {
  const { plan, setup, setupId, run, isReadOnly } = usePanel();
  const place = () =>
    run({ type: 'setPiece', setup: setupId, piece: item.id, set: { second: secondPedal(plan, setup, item) } });
  return (
    <TextButton isDisabled={isReadOnly || item.locked === true} onPress={place}>
      Place the second pedal
    </TextButton>
  );
}
