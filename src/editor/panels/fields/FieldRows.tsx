/** Rows of a field table as controls: what is read-only, what a refusal says and which command is run is decided here, once. */
import { usePanel } from '../../state/panelContext.ts';
import { MeasureField } from './MeasureField.tsx';
import { type Change, type FieldTable, numberField, type Row, switchField, textField, told } from './rows.ts';
import { ChoiceField, SwitchField, TickField, WordField } from './WordField.tsx';

export interface FieldRowProps<T> {
  readonly table: FieldTable<T>;
  readonly row: Row<NoInfer<T>>;
  readonly of: NoInfer<T>;
  /** Spoken but not shown, where the place says it already: in a table's cell. */
  readonly hideLabel?: boolean;
  /** "channel 3": whose field it is, where only the cell's place says so. It hides the label. */
  readonly whose?: string;
}

export function FieldRow<T>({ table, row, of, hideLabel, whose }: FieldRowProps<T>) {
  const { units, run, isReadOnly } = usePanel();
  if (row.when?.(of) === false) return null;
  const isLocked = row.evenLocked !== true && table.isLocked?.(of) === true;
  const shared = {
    label: whose === undefined ? told(row.label, of) : `${told(row.label, of)}, ${whose}`,
    hideLabel: hideLabel || whose !== undefined,
    isReadOnly: table.isOwn !== true && (isReadOnly || isLocked),
  };
  const take = (change: Change, gesture?: string): string | null =>
    change === null ? null : 'refusal' in change ? change.refusal : run(change, gesture);
  switch (row.as) {
    case 'words': {
      const { value, most, mayBeNone, set } = textField(table, row, of);
      const { lines, placeholder, mayBeEmpty = mayBeNone } = row;
      const suggestions = row.suggestions?.(of);
      const more = { lines, placeholder, suggestions, most, mayBeEmpty };
      return <WordField {...shared} {...more} value={value} onCommit={(text) => take(set(text))} />;
    }
    case 'choice': {
      const { value, set } = textField(table, row, of);
      return <ChoiceField {...shared} value={value} choices={row.choices(of)} onCommit={(id) => take(set(id))} />;
    }
    case 'switch':
    case 'tick': {
      const { value, set } = switchField(table, row, of);
      const Control = row.as === 'tick' ? TickField : SwitchField;
      return <Control {...shared} value={value} onCommit={(isOn) => void take(set(isOn))} />;
    }
    case undefined: {
      const { value, otherwise, measure, set, clear } = numberField(table, row, of, units);
      return (
        <MeasureField
          {...shared}
          note={whose === undefined ? told(row.note, of) : undefined}
          value={value}
          otherwise={otherwise ?? undefined}
          measure={measure}
          onCommit={(number, gesture) => take(set(number), gesture)}
          onClear={clear && (() => take(clear()))}
        />
      );
    }
  }
}

export interface FieldRowsProps<T, S extends string> {
  readonly table: FieldTable<T, S>;
  readonly section: NoInfer<S>;
  readonly of: NoInfer<T>;
}

/** One section of a table: numbers two to a row, words and choices a row each. */
export function FieldRows<T, S extends string>({ table, section, of }: FieldRowsProps<T, S>) {
  return (
    <div className="field-grid">
      {table.sections[section].map((row) => (
        <FieldRow key={row.path} table={table} row={row} of={of} />
      ))}
    </div>
  );
}
