/** Two cells of a table of parts: the user's own price for one, and a note. */
import { FieldRow } from '../fields/FieldRows.tsx';
import type { FieldTable } from '../fields/rows.ts';

export interface PriceCellsProps<T> {
  readonly table: FieldTable<T, 'price'>;
  readonly of: NoInfer<T>;
}

export function PriceCells<T>({ table, of }: PriceCellsProps<T>) {
  return table.sections.price.map((row) => (
    <td key={row.path} className={row.path === 'price' ? 'parts-size' : 'parts-note'}>
      <FieldRow table={table} row={row} of={of} hideLabel />
    </td>
  ));
}
