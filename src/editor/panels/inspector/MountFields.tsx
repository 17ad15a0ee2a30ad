/** How a piece is held: on what, where along it, by which clamp and which arm. */
import type { Gear } from '../../../gear/schema.ts';
import type { Item } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { FindMount } from './FindMount.tsx';
import { MOUNT } from './mountFields.ts';

export interface MountFieldsProps {
  readonly item: Item;
  readonly gear: Gear | undefined;
}

export function MountFields({ item, gear }: MountFieldsProps) {
  const panel = usePanel();
  const here = { ...panel, item, gear, all: gearOfPlan(panel.plan) };
  return (
    <Section title="Held by">
      <FieldRows table={MOUNT} section="heldBy" of={here} />
      {!panel.isReadOnly && <FindMount item={item} />}
    </Section>
  );
}
