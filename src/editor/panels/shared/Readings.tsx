/** What was measured or counted, a row each: its name and its value. Null: the row is left out. */
import type { ReactNode } from 'react';
import { unbroken } from './unbroken.ts';

export function Readings({ rows }: { readonly rows: readonly (readonly [name: string, value: ReactNode] | null)[] }) {
  return (
    <dl className="readings">
      {rows.map(
        (row) =>
          row && (
            <div key={row[0]}>
              <dt>{row[0]}</dt>
              <dd>{typeof row[1] === 'string' ? unbroken(row[1]) : row[1]}</dd>
            </div>
          ),
      )}
    </dl>
  );
}
