/** A list of lines as a table: a number, fields in cells, and the buttons that every line has. */
import type { ReactNode } from 'react';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRow } from '../fields/FieldRows.tsx';
import type { FieldTable, Row } from '../fields/rows.ts';
import { RowButtons } from './RowButtons.tsx';
import type { useLines } from './useLines.ts';

export interface RowTableProps<T> {
  readonly caption: string;
  readonly className: string;
  /** The head of the numbers. */
  readonly numberHead: string;
  readonly table: FieldTable<T, 'line'>;
  readonly lines: readonly T[];
  readonly idOf: (line: T) => string;
  /** "channel": what one line is. */
  readonly what: string;
  /** A last column that is no field. */
  readonly tells?: { readonly head: string; readonly of: (line: T) => ReactNode };
  readonly edits: Pick<ReturnType<typeof useLines>, 'rows' | 'remove'>;
}

const headOf = <T,>({ head, label }: Row<T>): string => head ?? String(label);

export function RowTable<T>(props: RowTableProps<T>) {
  const { caption, className, numberHead, table, lines, idOf, what, tells, edits } = props;
  const { isReadOnly } = usePanel();
  const { rows } = edits;
  const fields = table.sections.line;
  return (
    <div ref={rows.box} onKeyDownCapture={rows.onKeyDownCapture}>
      <table className={`row-table ${className}`}>
        <caption className="unseen">{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{numberHead}</th>
            {[...fields.map(headOf), ...(tells ? [tells.head] : [])].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
            <th scope="col">
              <span className="unseen">Move or remove</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line, at) => (
            <tr key={idOf(line)} data-row={idOf(line)}>
              <th scope="row" className="row-number">
                {at + 1}
              </th>
              {fields.map((row) => (
                <td key={row.path} data-col={row.path} data-label={headOf(row)}>
                  <FieldRow table={table} row={row} of={line} whose={`${what} ${at + 1}`} />
                </td>
              ))}
              {tells && <td data-label={tells.head}>{tells.of(line)}</td>}
              <td data-col="act">
                <RowButtons
                  what={`${what} ${at + 1}`}
                  isFirst={at === 0}
                  isLast={at === lines.length - 1}
                  isReadOnly={isReadOnly}
                  onMove={(by) => rows.move(idOf(line), by, by < 0 ? 'up' : 'down')}
                  onRemove={() => edits.remove(at)}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
