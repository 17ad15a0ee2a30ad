/** Sizes and mass of a piece of gear; the catalogue's typical sizes come back with one button. */
import { RotateCcw } from 'lucide-react';
import type { Placeable } from '../../../gear/kinds.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section } from '../fields/WordField.tsx';
import { measuredMark } from '../gear/shelf.ts';
import { IconButton } from '../shared/IconButton.tsx';
import { sizesOf } from './sizeFields.ts';

export function SizeFields({ gear }: { readonly gear: Placeable }) {
  const { plan, run, isReadOnly } = usePanel();
  const { text } = measuredMark(gear);
  return (
    <Section
      title="Sizes of this gear"
      actions={
        Object.hasOwn(plan.gear, gear.id) && (
          <IconButton
            icon={RotateCcw}
            label="Back to typical sizes"
            isDisabled={isReadOnly}
            onPress={() => run({ type: 'removeGear', gear: gear.id })}
          />
        )
      }
    >
      <p className="hint">
        {text[0].toUpperCase() + text.slice(1)}. A value measured here counts for every “{gear.name}” in the plan.
      </p>
      <FieldRows table={sizesOf(gear)} section="sizes" of={gear} />
    </Section>
  );
}
