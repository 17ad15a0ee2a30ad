/** How close things may come: the user's own clearance limits by pair of kinds, over the program's. */
import { Plus, Trash2 } from 'lucide-react';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { DEFAULT_HEIGHT_MM, pairOfKinds, requiredClearance } from '../../../checks/limits.ts';
import type { BodyKind } from '../../../gear/bodyKinds.ts';
import type { Limits } from '../../../plan/schema.ts';
import { formatLength } from '../../../units.ts';
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from '../fields/MeasureField.tsx';
import { lengthMeasure } from '../fields/measures.ts';
import { ChoiceField, Section } from '../fields/WordField.tsx';
import { splitPair } from './limitPairs.ts';

export interface LimitsPanelProps {
  readonly kinds: readonly BodyKind[];
  readonly kindWord: (kind: BodyKind) => string;
}

/** The program's own limit for a pair of kinds, mm; null: not checked. */
const usualMm = (a: BodyKind, b: BodyKind) => requiredClearance(undefined, a, b);

export function LimitsPanel({ kinds, kindWord }: LimitsPanelProps) {
  const { plan, units, run, isReadOnly } = usePanel();
  const [first, setFirst] = useState<BodyKind>(kinds[0]);
  const [second, setSecond] = useState<BodyKind>(kinds[1] ?? kinds[0]);
  const own = plan.limits?.clearanceMm ?? {};
  const write = (limits: Limits, gesture?: string) => run({ type: 'setLimits', limits }, gesture);
  const setPair = (key: string, mm: number | null | undefined, gesture?: string) => {
    const clearanceMm = { ...own };
    if (mm === undefined) delete clearanceMm[key];
    else clearanceMm[key] = mm;
    return write({ ...plan.limits, clearanceMm }, gesture);
  };
  const measure = lengthMeasure(units, { least: 0, most: 2000 });
  const title = ([a, b]: readonly [string, string]) => `${kindWord(a as BodyKind)} and ${kindWord(b as BodyKind)}`;
  const choices = kinds.map((kind) => ({ id: kind, label: kindWord(kind) }));
  const key = pairOfKinds(first, second);
  const usual = usualMm(first, second);
  const pairs = Object.keys(own).sort();
  return (
    <>
      <Section title="Your own clearances">
        {pairs.length === 0 && <p className="hint">None yet: the usual ones count.</p>}
        {pairs.map((pair) => {
          const kindsOf = splitPair(pair);
          const usualOfPair = kindsOf === null ? null : usualMm(kindsOf[0] as BodyKind, kindsOf[1] as BodyKind);
          return (
            <div key={pair} className="limit-row">
              <MeasureField
                label={kindsOf === null ? pair : title(kindsOf)}
                note={own[pair] === null ? 'not checked' : undefined}
                value={own[pair]}
                otherwise={usualOfPair ?? undefined}
                measure={measure}
                isReadOnly={isReadOnly}
                onCommit={(mm, gesture) => setPair(pair, mm, gesture)}
                onClear={() => setPair(pair, null)}
              />
              <Button
                className="icon-button"
                aria-label={`Back to the usual clearance: ${kindsOf === null ? pair : title(kindsOf)}`}
                isDisabled={isReadOnly}
                onPress={() => setPair(pair, undefined)}
              >
                <Trash2 />
              </Button>
            </div>
          );
        })}
      </Section>
      <Section title="Set a clearance">
        <div className="field-grid">
          <ChoiceField
            label="Between"
            value={first}
            choices={choices}
            onCommit={(kind) => {
              setFirst(kind as BodyKind);
              return null;
            }}
          />
          <ChoiceField
            label="and"
            value={second}
            choices={choices}
            onCommit={(kind) => {
              setSecond(kind as BodyKind);
              return null;
            }}
          />
        </div>
        <p className="hint">
          Usually {usual === null ? 'not checked' : formatLength(usual, units)}. An empty field above: that pair is not
          checked.
        </p>
        <Button
          className="button"
          isDisabled={isReadOnly || Object.hasOwn(own, key)}
          onPress={() => setPair(key, usual ?? 0)}
        >
          <Plus aria-hidden="true" /> Set for this pair
        </Button>
      </Section>
      <Section title="Heights">
        <MeasureField
          label="Things this close in height count as meeting"
          value={plan.limits?.heightMm ?? null}
          otherwise={DEFAULT_HEIGHT_MM}
          measure={lengthMeasure(units, { least: 0, most: 500 })}
          isReadOnly={isReadOnly}
          onCommit={(heightMm, gesture) => write({ ...plan.limits, heightMm }, gesture)}
          onClear={() => {
            const { heightMm: _, ...rest } = plan.limits ?? {};
            return write(rest);
          }}
        />
      </Section>
    </>
  );
}
