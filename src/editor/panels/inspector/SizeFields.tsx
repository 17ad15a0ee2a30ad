/** Sizes and mass of a piece of gear; the catalogue's typical sizes come back with one button. */
import { RotateCcw } from 'lucide-react';
import { Button } from 'react-aria-components';
import type { Placeable } from '../../../gear/kinds.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section } from '../fields/WordField.tsx';
import { measuredMark } from '../gear/shelf.ts';
import { sizesOf } from './sizeFields.ts';

export function SizeFields({ gear }: { readonly gear: Placeable }) {
  const { plan, run, isReadOnly } = usePanel();
  const { text } = measuredMark(gear);
  return (
    <Section
      title="Sizes of this gear"
      actions={
        Object.hasOwn(plan.gear, gear.id) && (
          <Button
            className="icon-button"
            aria-label="Back to typical sizes"
            isDisabled={isReadOnly}
            onPress={() => run({ type: 'removeGear', gear: gear.id })}
          >
            <RotateCcw />
          </Button>
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
