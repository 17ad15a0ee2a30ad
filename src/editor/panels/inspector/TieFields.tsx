/** Links that tie a legless stand to a rack. */
import { Plus, Trash2 } from 'lucide-react';
import { Button } from 'react-aria-components';
import type { Item, Tie } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { lengthMeasure } from '../fields/measures.ts';
import { ChoiceField, Section } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { gearChoices, NONE, orNone } from '../shared/gearChoices.ts';
import { carrierChoices, carrierFrom, carrierKey } from './carriers.ts';
import { CarrierPlace, holdsArms } from './MountFields.tsx';
import { newTie } from './newTie.ts';

export interface TieFieldsProps {
  readonly item: Item;
  readonly isFixed: boolean;
  readonly onTies: (ties: readonly Tie[] | null, gesture?: string) => string | null;
}

export function TieFields({ item, isFixed, onTies }: TieFieldsProps) {
  const { plan, setup, units } = usePanel();
  const ties = item.ties ?? [];
  const gear = gearOfPlan(plan);
  // A tie is clamped to a tube: bars and legs only.
  const carriers = carrierChoices(plan, setup, item).filter(({ id }) => /^\["(bar|leg)"/.test(id));
  const first = newTie(setup, item, carriers, gear);
  if (ties.length === 0 && first === null) return null;

  const change = (index: number, tie: Tie, gesture?: string) => onTies(ties.with(index, tie), gesture);
  return (
    <Section
      title="Tied to a rack"
      actions={
        <Button
          className="icon-button"
          aria-label="Add a link"
          isDisabled={isFixed || first === null || ties.length >= 6}
          onPress={() => first !== null && onTies([...ties, first])}
        >
          <Plus />
        </Button>
      }
    >
      {ties.map((tie, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: ties have no id; their order is theirs
        <fieldset key={index} className="part">
          <legend className="part-head">
            Link {index + 1}
            <Button
              className="icon-button"
              aria-label={`Remove link ${index + 1}`}
              isDisabled={isFixed}
              onPress={() => {
                const kept = ties.toSpliced(index, 1);
                onTies(kept.length === 0 ? null : kept);
              }}
            >
              <Trash2 />
            </Button>
          </legend>
          <ChoiceField
            label="To"
            value={carrierKey(tie.carrier)}
            choices={carriers}
            isReadOnly={isFixed}
            onCommit={(key) => {
              const carrier = carrierFrom(key, setup, item);
              return carrier === null ? 'That is not in this setup any more.' : change(index, { ...tie, carrier });
            }}
          />
          <div className="field-grid">
            <CarrierPlace
              carrier={tie.carrier}
              isFixed={isFixed}
              onCarrier={(carrier, gesture) => change(index, { ...tie, carrier }, gesture)}
            />
            <MeasureField
              label="Height at the stand"
              value={tie.heightMm}
              measure={lengthMeasure(units, { least: 0, most: 5000 })}
              isReadOnly={isFixed}
              onCommit={(heightMm, gesture) => change(index, { ...tie, heightMm }, gesture)}
            />
            <ChoiceField
              label="Link"
              value={tie.link}
              choices={gearChoices(gear, ({ kind }) => kind === 'link', tie.link)}
              isReadOnly={isFixed}
              onCommit={(id) => change(index, { ...tie, link: id })}
            />
            <ChoiceField
              label="Clamp"
              value={tie.clamp ?? NONE}
              choices={orNone(gearChoices(gear, holdsArms, tie.clamp), 'No clamp')}
              isReadOnly={isFixed}
              onCommit={(id) => change(index, { ...tie, clamp: id === NONE ? null : id })}
            />
          </div>
        </fieldset>
      ))}
    </Section>
  );
}
