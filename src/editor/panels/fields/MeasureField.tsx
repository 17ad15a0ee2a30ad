/**
 * A field for one number of the plan, typed as the user writes it. Enter or leaving the field commits, Escape restores,
 * arrow keys step. What cannot be taken stays in the field with the reason below it; the plan keeps its value.
 */
import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react';
import { FieldError, Input, Label, TextField } from 'react-aria-components';
import { type Measure, readField, stepped } from './measures.ts';

export interface MeasureFieldProps {
  readonly label: string;
  /** In the plan's unit. Null: the plan says nothing here, and `otherwise` holds. */
  readonly value: number | null;
  /** What holds while the field is empty; shown grey. */
  readonly otherwise?: number;
  readonly measure: Measure;
  /** Takes a new value. The answer is null, or the sentence why not. Commits of one gesture undo as one. */
  readonly onCommit: (value: number, gesture?: string) => string | null;
  /** Empties the field. Left out where the plan must have a value. */
  readonly onClear?: () => string | null;
  readonly isReadOnly?: boolean;
  /** A short note after the label, such as "typical". */
  readonly note?: string;
  /** Spoken but not shown, where the place says it already. */
  readonly hideLabel?: boolean;
}

const STEP_KEYS: Readonly<Record<string, readonly [1 | -1, 0 | 2]>> = {
  ArrowUp: [1, 0],
  ArrowDown: [-1, 0],
  PageUp: [1, 2],
  PageDown: [-1, 2],
};

export function MeasureField(props: MeasureFieldProps) {
  const { label, value, otherwise, measure, onCommit, onClear, isReadOnly, note, hideLabel } = props;
  /** What is typed and not yet taken; null while the plan's value is shown. */
  const [draft, setDraft] = useState<string | null>(null);
  const [sentence, setSentence] = useState<string | null>(null);
  const id = useId();
  const focuses = useRef(0);

  const restore = () => {
    setDraft(null);
    setSentence(null);
  };
  // The plan moved on (undo, a drag, another piece): what was typed against the old value is stale.
  // biome-ignore lint/correctness/useExhaustiveDependencies: `value` is the trigger, not an input
  useEffect(restore, [value]);

  const settle = (refusal: string | null) => {
    setSentence(refusal);
    if (refusal === null) setDraft(null);
  };
  const shown = value === null ? '' : measure.format(value);
  const commit = () => {
    if (draft === null || draft === shown) return restore();
    if (draft.trim() === '' && onClear !== undefined) return settle(onClear());
    const read = readField(measure, draft);
    settle(read.ok ? onCommit(read.value) : read.sentence);
  };
  const step = (direction: 1 | -1, size: 0 | 1 | 2) => {
    const typed = draft === null ? null : readField(measure, draft);
    const from = typed?.ok ? typed.value : (value ?? otherwise ?? 0);
    settle(onCommit(stepped(measure, from, direction, size), `${id}-${focuses.current}`));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const key = STEP_KEYS[event.key];
    if (event.key === 'Enter') commit();
    else if (event.key === 'Escape' && draft !== null) {
      restore();
      // Only the typing is given up, not the dialog around it.
      event.stopPropagation();
    } else if (key !== undefined && !isReadOnly) {
      event.preventDefault();
      step(key[0], event.shiftKey ? 1 : key[1]);
    }
  };

  return (
    <TextField
      className="field"
      value={draft ?? shown}
      onChange={setDraft}
      isReadOnly={isReadOnly}
      isInvalid={sentence !== null}
      onBlur={commit}
      onFocus={() => {
        focuses.current++;
      }}
    >
      <Label className={hideLabel ? 'unseen' : 'field-label'}>
        {label}
        {note !== undefined && <span className="field-note"> {note}</span>}
      </Label>
      <Input
        className="field-input"
        inputMode="text"
        autoComplete="off"
        spellCheck={false}
        placeholder={otherwise === undefined ? undefined : measure.format(otherwise)}
        onKeyDown={onKeyDown}
        onFocus={(event) => event.currentTarget.select()}
      />
      <FieldError className="field-error">{sentence}</FieldError>
    </TextField>
  );
}
