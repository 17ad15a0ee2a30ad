/** Fields for words and choices: a name, a note, one of a few. They commit as MeasureField does. */
import { type ReactNode, useId } from 'react';
import { FieldError, Input, Label, Switch, TextArea, TextField } from 'react-aria-components';
import { groupBy } from '../shared/groupBy.ts';
import type { Choice } from './rows.ts';
import { useDraft } from './useDraft.ts';

export interface WordFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onCommit: (value: string) => string | null;
  readonly lines?: number;
  readonly most: number;
  readonly isReadOnly?: boolean;
  readonly placeholder?: string;
  /** False where an empty text is refused before the plan is asked. */
  readonly mayBeEmpty?: boolean;
  /** Spoken but not shown, where the place says it already. */
  readonly hideLabel?: boolean;
  /** Id of a datalist with words to choose from. */
  readonly suggestions?: string;
}

export function WordField(props: WordFieldProps) {
  const { label, value, onCommit, lines = 1, most, isReadOnly, placeholder, mayBeEmpty = false, hideLabel } = props;
  const draft = useDraft({
    value,
    shown: value,
    hasLines: lines > 1,
    take: (text) => {
      const wanted = lines === 1 ? text.trim() : text;
      return wanted === '' && !mayBeEmpty ? `${label} cannot be empty.` : onCommit(wanted);
    },
  });
  const { onKeyDown, sentence } = draft;
  const shared = { maxLength: most, placeholder, onKeyDown, className: 'field-input' };
  return (
    <TextField
      className="field field-wide"
      value={draft.text}
      onChange={draft.type}
      onBlur={draft.commit}
      isReadOnly={isReadOnly}
      isInvalid={sentence !== null}
    >
      <Label className={hideLabel ? 'unseen' : 'field-label'}>{label}</Label>
      {lines === 1 ? (
        <Input autoComplete="off" list={props.suggestions} {...shared} />
      ) : (
        <TextArea rows={lines} {...shared} />
      )}
      <FieldError className="field-error">{sentence}</FieldError>
    </TextField>
  );
}

export interface ChoiceFieldProps {
  readonly label: string;
  readonly value: string;
  readonly choices: readonly Choice[];
  readonly onCommit: (id: string) => string | null;
  readonly isReadOnly?: boolean;
  /** Spoken but not shown, where the place says it already. */
  readonly hideLabel?: boolean;
}

/** One of a list. The browser's own list box: it is quick with a whole catalogue, and at home on a phone. */
export function ChoiceField({ label, value, choices, onCommit, isReadOnly, hideLabel }: ChoiceFieldProps) {
  const id = useId();
  const { sentence, settle } = useDraft({ value, shown: value, take: onCommit });
  const groups = groupBy(choices, ({ group }) => group ?? '');
  return (
    <div className="field field-wide">
      <label className={hideLabel ? 'unseen' : 'field-label'} htmlFor={id}>
        {label}
      </label>
      <select
        id={id}
        className="field-input"
        value={value}
        disabled={isReadOnly}
        aria-invalid={sentence !== null}
        aria-describedby={sentence === null ? undefined : `${id}-error`}
        onChange={(event) => settle(onCommit(event.target.value))}
      >
        {[...groups].map(([group, members]) => {
          const options = members.map((choice) => (
            <option key={choice.id} value={choice.id}>
              {choice.label}
            </option>
          ));
          if (group === '') return options;
          return (
            <optgroup key={group} label={group}>
              {options}
            </optgroup>
          );
        })}
      </select>
      {sentence !== null && (
        <span id={`${id}-error`} className="field-error">
          {sentence}
        </span>
      )}
    </div>
  );
}

export interface SwitchFieldProps {
  readonly label: string;
  readonly value: boolean;
  readonly onCommit: (value: boolean) => void;
  readonly isReadOnly?: boolean;
}

export function SwitchField({ label, value, onCommit, isReadOnly }: SwitchFieldProps) {
  return (
    <Switch className="switch" isSelected={value} onChange={onCommit} isDisabled={isReadOnly}>
      <span className="switch-track" aria-hidden="true">
        <span className="switch-thumb" />
      </span>
      {label}
    </Switch>
  );
}

/** The same in a table's cell, where a column's head says what it is. */
export function TickField({ label, value, onCommit, isReadOnly }: SwitchFieldProps) {
  return (
    <label className="tick">
      <input
        type="checkbox"
        checked={value}
        disabled={isReadOnly}
        onChange={(event) => onCommit(event.target.checked)}
      />
      <span className="unseen">{label}</span>
    </label>
  );
}

/** A titled block of a panel. */
export function Section({ title, children, actions }: { title: string; children: ReactNode; actions?: ReactNode }) {
  const id = useId();
  return (
    <section className="section" aria-labelledby={id}>
      <div className="section-head">
        <h3 id={id}>{title}</h3>
        {actions}
      </div>
      {children}
    </section>
  );
}
