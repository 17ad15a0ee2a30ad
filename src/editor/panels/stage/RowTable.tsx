/** A list of lines as a table: a number, fields in cells, and the buttons that every line has. */
import type { ReactNode } from 'react';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRow } from '../fields/FieldRows.tsx';
import type { FieldTable } from '../fields/rows.ts';
import { RowButtons } from './RowButtons.tsx';
import type { useLines } from './useLines.ts';

export interface Column<T> {
  /** The path of a row of the field table; left out where `cell` shows something else. */
  readonly path?: string;
  readonly head: string;
  readonly cell?: (line: T) => ReactNode;
}

export interface RowTableProps<T> {
  readonly caption: string;
  readonly className: string;
  /** The head of the numbers. */
  readonly numberHead: string;
  readonly columns: readonly Column<T>[];
  readonly table: FieldTable<T, 'line'>;
  readonly lines: readonly T[];
  readonly idOf: (line: T) => string;
  /** "channel": what one line is. */
  readonly what: string;
  readonly edits: Pick<ReturnType<typeof useLines>, 'rows' | 'remove'>;
}

export function RowTable<T>(props: RowTableProps<T>) {
  const { caption, className, numberHead, columns, table, lines, idOf, what, edits } = props;
  const { isReadOnly } = usePanel();
  const { rows } = edits;
  return (
    <div ref={rows.box} onKeyDownCapture={rows.onKeyDownCapture}>
      <table className={`row-table ${className}`}>
        <caption className="unseen">{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{numberHead}</th>
            {columns.map(({ head }) => (
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
              {columns.map(({ path, head, cell }) => (
                <td key={head} data-col={path} data-label={head}>
                  {cell?.(line)}
                  {table.sections.line.map(
                    (row) => row.path === path && <FieldRow key={path} table={table} row={row} of={line} hideLabel />,
                  )}
                </td>
              ))}
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
