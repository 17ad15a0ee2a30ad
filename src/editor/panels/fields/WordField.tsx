/** Fields for words and choices: a name, a note, one of a few. They commit as MeasureField does. */
import { type ReactNode, useId } from 'react';
import { FieldError, Input, Label, Switch, TextArea, TextField, type TextFieldProps } from 'react-aria-components';
import { groupBy } from '../shared/groupBy.ts';
import type { Choice } from './rows.ts';
import { useDraft } from './useDraft.ts';

export interface FieldProps {
  readonly label: string;
  /** Spoken but not shown, where the place says it already. */
  readonly hideLabel?: boolean;
  readonly isReadOnly?: boolean;
}

export interface DraftFieldProps extends FieldProps, Omit<TextFieldProps, 'className' | 'isReadOnly'> {
  readonly draft: ReturnType<typeof useDraft>;
  readonly isWide?: boolean;
  /** A short note after the label, such as "typical". */
  readonly note?: string;
  /** What is typed into. */
  readonly children: ReactNode;
}

/** A label, what is typed and not yet taken, and why it was not taken. */
export function DraftField({ label, hideLabel, draft, isWide = true, note, children, ...rest }: DraftFieldProps) {
  const { text, type, commit, sentence } = draft;
  return (
    <TextField
      className={isWide ? 'field field-wide' : 'field'}
      value={text}
      onChange={type}
      onBlur={commit}
      isInvalid={sentence !== null}
      {...rest}
    >
      <Label className={hideLabel ? 'unseen' : 'field-label'}>
        {label}
        {note !== undefined && <span className="field-note"> {note}</span>}
      </Label>
      {children}
      <FieldError className="field-error">{sentence}</FieldError>
    </TextField>
  );
}

export interface WordFieldProps extends FieldProps {
  readonly value: string;
  readonly onCommit: (value: string) => string | null;
  readonly lines?: number;
  readonly most: number;
  readonly placeholder?: string;
  /** False where an empty text is refused before the plan is asked. */
  readonly mayBeEmpty?: boolean;
  /** Id of a datalist with words to choose from. */
  readonly suggestions?: string;
}

export function WordField(props: WordFieldProps) {
  const { value, onCommit, lines = 1, most, placeholder, mayBeEmpty = false, suggestions, ...field } = props;
  const draft = useDraft({
    value,
    shown: value,
    hasLines: lines > 1,
    take: (text) => {
      const wanted = lines === 1 ? text.trim() : text;
      return wanted === '' && !mayBeEmpty ? `${field.label} cannot be empty.` : onCommit(wanted);
    },
  });
  const shared = { maxLength: most, placeholder, onKeyDown: draft.onKeyDown, className: 'field-input' };
  return (
    <DraftField {...field} draft={draft}>
      {lines === 1 ? (
        <Input autoComplete="off" list={suggestions} {...shared} />
      ) : (
        <TextArea rows={lines} {...shared} />
      )}
    </DraftField>
  );
}

export interface ChoiceFieldProps extends FieldProps {
  readonly value: string;
  readonly choices: readonly Choice[];
  /** Takes another choice; or the sentence why not. */
  readonly onCommit: (id: string) => string | null | undefined;
}

/** One of a list. The browser's own list box: it is quick with a whole catalogue, and at home on a phone. */
export function ChoiceField({ label, value, choices, onCommit, isReadOnly, hideLabel }: ChoiceFieldProps) {
  const id = useId();
  const take = (id: string) => onCommit(id) ?? null;
  const { sentence, settle } = useDraft({ value, shown: value, take });
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
        onChange={(event) => settle(take(event.target.value))}
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

export interface SwitchFieldProps extends Omit<FieldProps, 'hideLabel'> {
  readonly value: boolean;
  readonly onCommit: (value: boolean) => void;
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
