/**
 * Sizes and mass of a piece of gear, with a tape's or a scale's value in place of the typical one.
 *
 * A measured value goes into the plan's own gear under the same id, so every piece of that gear has it; the catalogue's
 * typical sizes come back with one button.
 */
import { RotateCcw } from 'lucide-react';
import { Button } from 'react-aria-components';
import { massKgOf } from '../../../gear/catalogue.ts';
import { type Placeable, sizeFields } from '../../../gear/kinds.ts';
import type { Gear } from '../../../gear/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { lengthMeasure, massMeasure } from '../fields/measures.ts';
import { Section } from '../fields/WordField.tsx';
import { measuredMark } from '../gear/shelf.ts';

/** The gear with one value measured. A stage item drawn round stays round. */
export function withMeasured(gear: Gear, field: string, value: number): Gear {
  const measured = [...new Set([...(gear.measured ?? []), field])].sort();
  return { ...gear, [field]: value, measured } as Gear;
}

export function SizeFields({ gear }: { readonly gear: Placeable }) {
  const { plan, units, run, isReadOnly } = usePanel();
  const own = Object.hasOwn(plan.gear, gear.id);
  const { text } = measuredMark(gear);
  const isMeasured = (field: string) => (gear.measured ?? []).includes(field);
  const measure = (field: string) => (value: number, gesture?: string) =>
    run({ type: 'setGear', gear: withMeasured(gear, field, value) }, gesture);
  return (
    <Section
      title="Sizes of this gear"
      actions={
        own && (
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
      <div className="field-grid">
        {sizeFields(gear).map(({ field, word, value, least, most }) => (
          <MeasureField
            key={field}
            label={word}
            note={isMeasured(field) ? 'measured' : undefined}
            value={value}
            measure={lengthMeasure(units, { least, most })}
            isReadOnly={isReadOnly}
            onCommit={measure(field)}
          />
        ))}
        <MeasureField
          label="Mass"
          note={isMeasured('massKg') ? 'measured' : massKgOf(gear) === null ? 'not known' : undefined}
          value={massKgOf(gear)}
          measure={massMeasure(units)}
          isReadOnly={isReadOnly}
          onCommit={measure('massKg')}
        />
      </div>
    </Section>
  );
}
