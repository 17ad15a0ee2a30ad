/** What a stage item says to the venue: what a microphone takes, which mix is heard, what a power drop gives. */
import type { GearOf } from '../../../gear/schema.ts';
import type { Item } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section } from '../fields/WordField.tsx';
import { STAGE_ITEM } from './itemFields.ts';
import type { Use } from './stageLists.ts';

interface Told {
  readonly title: string;
  readonly section: keyof typeof STAGE_ITEM.sections;
  readonly hint?: string;
}

const INPUT: Told = { title: 'On the input list', section: 'takes' };
const MIX: Told = { title: 'Monitor mix', section: 'mix' };
const POWER: Told = {
  title: 'Power',
  section: 'power',
  hint: 'What will hang on it, all together. The venue’s electrician decides.',
};

const TOLD: Readonly<Record<Use, Told | null>> = {
  microphone: INPUT,
  di: INPUT,
  wedge: MIX,
  person: MIX,
  power: POWER,
  amplifier: null,
  keyboard: null,
};

export interface StageItemFieldsProps {
  readonly item: Item;
  readonly gear: GearOf<'stageItem'>;
}

export function StageItemFields({ item, gear: { use } }: StageItemFieldsProps) {
  const panel = usePanel();
  const told = TOLD[use];
  if (told === null) return null;
  return (
    <Section title={told.title}>
      <FieldRows table={STAGE_ITEM} section={told.section} of={{ ...panel, item, use }} />
      {told.hint !== undefined && <p className="hint">{told.hint}</p>}
    </Section>
  );
}
