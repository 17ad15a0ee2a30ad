/** Links that tie a legless stand to a rack. */
import { Plus, Trash2 } from 'lucide-react';
import { LIMITS, type Tie } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section } from '../fields/WordField.tsx';
import { gearOfPlan } from '../gear/shelf.ts';
import { IconButton } from '../shared/IconButton.tsx';
import { carrierChoices } from './carriers.ts';
import { setTies, TIE } from './mountFields.ts';
import { newTie } from './newTie.ts';
import type { ItemHere } from './pieceFields.ts';

export function TieFields({ item, gear }: Pick<ItemHere, 'item' | 'gear'>) {
  const panel = usePanel();
  const { plan, setup, setupId, run, isReadOnly } = panel;
  const ties = item.ties ?? [];
  const all = gearOfPlan(plan);
  // A tie is clamped to a tube: bars and legs only.
  const tubes = carrierChoices(plan, setup, item).filter(({ id }) => /^\["(bar|leg)"/.test(id));
  const first = newTie(plan, setup, item, tubes, all);
  if (ties.length === 0 && first === null) return null;
  const put = (next: readonly Tie[]) => run(setTies({ setupId, item }, next));
  return (
    <Section
      title="Tied to a rack"
      actions={
        <IconButton
          icon={Plus}
          label="Add a link"
          isDisabled={isReadOnly || first === null || ties.length >= LIMITS.ties}
          onPress={() => first !== null && put([...ties, first])}
        />
      }
    >
      {ties.map((tie, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: ties have no id; their order is theirs
        <fieldset key={at} className="part">
          <legend className="part-head">
            Link {at + 1}
            <IconButton
              icon={Trash2}
              label={`Remove link ${at + 1}`}
              isDisabled={isReadOnly}
              onPress={() => put(ties.toSpliced(at, 1))}
            />
          </legend>
          <FieldRows table={TIE} section="link" of={{ ...panel, item, gear, all, tie, at, tubes }} />
        </fieldset>
      ))}
    </Section>
  );
}
