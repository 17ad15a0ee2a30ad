/**
 * A field for one number of the plan, typed as the user writes it (useDraft.ts says how it is taken); arrow keys step.
 */
import { type KeyboardEvent, useId, useRef } from 'react';
import { Input } from 'react-aria-components';
import { isSaid, type Measure, readField, stepped } from './measures.ts';
import { useDraft } from './useDraft.ts';
import { DraftField, type FieldProps } from './WordField.tsx';

export interface MeasureFieldProps extends FieldProps {
  /** In the plan's unit. Null: the plan says nothing here, and `otherwise` holds. */
  readonly value: number | null;
  /** What holds while the field is empty; shown grey. */
  readonly otherwise?: number;
  readonly measure: Measure;
  /** Takes a new value. The answer is null, or the sentence why not. Commits of one gesture undo as one. */
  readonly onCommit: (value: number, gesture?: string) => string | null;
  /** Empties the field. Left out where the plan must have a value. */
  readonly onClear?: () => string | null;
  readonly note?: string;
}

const STEP_KEYS: Readonly<Record<string, readonly [1 | -1, 0 | 2]>> = {
  ArrowUp: [1, 0],
  ArrowDown: [-1, 0],
  PageUp: [1, 2],
  PageDown: [-1, 2],
};

export function MeasureField(props: MeasureFieldProps) {
  const { value, otherwise, measure, onCommit, onClear, ...field } = props;
  const id = useId();
  const focuses = useRef(0);
  const draft = useDraft({
    value,
    shown: value === null ? '' : measure.format(value),
    isSame: (text) => isSaid(measure, text, value),
    take: (text) => {
      if (text.trim() === '' && onClear !== undefined) return onClear();
      const read = readField(measure, text);
      return read.ok ? onCommit(read.value) : read.sentence;
    },
  });
  const step = (direction: 1 | -1, size: 0 | 1 | 2) => {
    const typed = draft.typed === null ? null : readField(measure, draft.typed);
    const from = typed?.ok ? typed.value : (value ?? otherwise ?? 0);
    draft.settle(onCommit(stepped(measure, from, direction, size), `${id}-${focuses.current}`));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const key = STEP_KEYS[event.key];
    if (key === undefined || field.isReadOnly) return draft.onKeyDown(event);
    event.preventDefault();
    step(key[0], event.shiftKey ? 1 : key[1]);
  };

  return (
    <DraftField
      {...field}
      draft={draft}
      isWide={false}
      onFocus={() => {
        focuses.current++;
      }}
    >
      <Input
        className="field-input"
        inputMode="text"
        autoComplete="off"
        spellCheck={false}
        placeholder={otherwise === undefined ? undefined : measure.format(otherwise)}
        onKeyDown={onKeyDown}
        onFocus={(event) => event.currentTarget.select()}
      />
    </DraftField>
  );
}
