/** What a stage item says to the venue: what a microphone takes, which mix is heard, what a power drop gives. */
import type { GearOf } from '../../../gear/schema.ts';
import { STAGE_USES } from '../../../gear/uses.ts';
import type { Item } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section } from '../fields/WordField.tsx';
import { STAGE_ITEM } from './itemFields.ts';

interface Told {
  readonly title: string;
  readonly section: keyof typeof STAGE_ITEM.sections;
  readonly hint?: string;
}

const TOLD: Readonly<Record<NonNullable<(typeof STAGE_USES)[StageItemFieldsProps['gear']['use']]['asks']>, Told>> = {
  source: { title: 'On the input list', section: 'takes' },
  mix: { title: 'Monitor mix', section: 'mix' },
  power: {
    title: 'Power',
    section: 'power',
    hint: 'What will hang on it, all together. The venue’s electrician decides.',
  },
};

export interface StageItemFieldsProps {
  readonly item: Item;
  readonly gear: GearOf<'stageItem'>;
}

export function StageItemFields({ item, gear: { use } }: StageItemFieldsProps) {
  const panel = usePanel();
  const { asks } = STAGE_USES[use];
  if (asks === null) return null;
  const told = TOLD[asks];
  return (
    <Section title={told.title}>
      <FieldRows table={STAGE_ITEM} section={told.section} of={{ ...panel, item, use }} />
      {told.hint !== undefined && <p className="hint">{told.hint}</p>}
    </Section>
  );
}
