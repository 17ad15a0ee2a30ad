/** How close things may come, and what they may be loaded with: the user's own limits, over the program's. */

import { Plus, Trash2 } from 'lucide-react';
import { useState } from 'react';
import { pairOfKinds } from '../../../checks/limits.ts';
import { BODY_KIND_LIST, type BodyKind } from '../../../gear/bodyKinds.ts';
import { formatLength } from '../../../units.ts';
import { kindWord } from '../../../words/names.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRow, FieldRows } from '../fields/FieldRows.tsx';
import { ChoiceField, Section } from '../fields/WordField.tsx';
import { IconButton } from '../shared/IconButton.tsx';
import { TextButton } from '../shared/TextButton.tsx';
import { splitPair } from './limitPairs.ts';
import { LIMIT, PAIR, setPair, usualMm } from './planFields.ts';

export function LimitsPanel() {
  const panel = usePanel();
  const { plan, units, run, isReadOnly } = panel;
  const [first, setFirst] = useState<BodyKind>(BODY_KIND_LIST[0]);
  const [second, setSecond] = useState<BodyKind>(BODY_KIND_LIST[1]);
  const own = plan.limits?.clearanceMm ?? {};
  const put = (pair: string, mm: number | undefined) => run(setPair(plan, pair, mm));
  const titleOf = (pair: string) =>
    splitPair(pair)
      ?.map((kind) => kindWord(kind as BodyKind))
      .join(' and ') ?? pair;
  const choices = BODY_KIND_LIST.map((kind) => ({ id: kind, label: kindWord(kind) }));
  const ends = [
    { label: 'Between', value: first, set: setFirst },
    { label: 'and', value: second, set: setSecond },
  ];
  const key = pairOfKinds(first, second);
  const usual = usualMm(first, second);
  const pairs = Object.keys(own).sort();
  return (
    <>
      <Section title="Your own clearances">
        {pairs.length === 0 && <p className="hint">None yet: the usual ones count.</p>}
        {pairs.map((pair) => (
          <div key={pair} className="field-line">
            <FieldRow table={PAIR} row={PAIR.sections.pair[0]} of={{ plan, pair, title: titleOf(pair) }} />
            <IconButton
              icon={Trash2}
              label={`Back to the usual clearance: ${titleOf(pair)}`}
              isDisabled={isReadOnly}
              onPress={() => put(pair, undefined)}
            />
          </div>
        ))}
      </Section>
      <Section title="Set a clearance">
        <div className="field-grid">
          {ends.map(({ label, value, set }) => (
            <ChoiceField
              key={label}
              label={label}
              value={value}
              choices={choices}
              onCommit={(kind) => void set(kind as BodyKind)}
            />
          ))}
        </div>
        <p className="hint">
          Usually {usual === null ? 'not checked' : formatLength(usual, units)}. An empty field above: that pair is not
          checked.
        </p>
        <TextButton icon={Plus} isDisabled={isReadOnly || Object.hasOwn(own, key)} onPress={() => put(key, usual ?? 0)}>
          Set for this pair
        </TextButton>
      </Section>
      <Section title="Heights">
        <FieldRow table={LIMIT} row={LIMIT.sections.heights[0]} of={panel} />
      </Section>
      <Section title="Loads and tipping">
        <FieldRows table={LIMIT} section="loads" of={panel} />
        <p className="hint">
          What a clamp or joint holds before it turns on its tube is its maker’s to say. Not stated: what a plain clamp
          holds counts as safe, and anything above it as unknown.
        </p>
      </Section>
    </>
  );
}
