/**
 * Rows of a list by the keyboard: Alt with an arrow key moves a row, an arrow key alone goes to the same field of the row
 * above or below, and the field that was in hand keeps the focus when its row moves.
 *
 * Rows carry `data-row`, their cells `data-col`.
 */
import { type KeyboardEvent, useLayoutEffect, useRef } from 'react';

/** Which field is to have the focus once the list is shown anew. */
export interface Spot {
  readonly row: string;
  readonly col: string;
}

const FIELDS = 'input, select, textarea, button';

/** Fields that cannot be used are passed over: the first move button is of no use in the first row. */
function fieldAt(cell: Element | null | undefined): HTMLElement | undefined {
  return [...(cell?.querySelectorAll<HTMLElement>(FIELDS) ?? [])].find((field) => !field.matches(':disabled'));
}

export function useRows(onMove: (row: string, by: 1 | -1) => string | null) {
  const box = useRef<HTMLDivElement>(null);
  const wanted = useRef<Spot | null>(null);
  const cellOf = ({ row, col }: Spot) => {
    const rows = [...(box.current?.querySelectorAll<HTMLElement>('[data-row]') ?? [])];
    return rows.find((one) => one.dataset.row === row)?.querySelector(`[data-col="${col}"]`);
  };
  useLayoutEffect(() => {
    if (wanted.current === null) return;
    // At the list's end the button that brought the row there is of no use any more: its neighbour is.
    const field = fieldAt(cellOf(wanted.current)) ?? fieldAt(cellOf({ ...wanted.current, col: 'act' }));
    wanted.current = null;
    field?.focus();
  });
  const keep = (spot: Spot) => {
    wanted.current = spot;
  };
  const move = (row: string, by: 1 | -1, col: string) => {
    const next = onMove(row, by);
    if (next !== null) keep({ row: next, col });
  };
  const onKeyDownCapture = (event: KeyboardEvent) => {
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
    const target = event.target as HTMLElement;
    const row = target.closest<HTMLElement>('[data-row]');
    const col = target.closest<HTMLElement>('[data-col]')?.dataset.col;
    if (row?.dataset.row === undefined || col === undefined || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const by = event.key === 'ArrowUp' ? -1 : 1;
    if (event.altKey) {
      event.preventDefault();
      // What is being typed is taken first.
      target.blur();
      keep({ row: row.dataset.row, col });
      move(row.dataset.row, by, col);
      // Where nothing moved nothing is shown anew.
      if (document.activeElement === document.body) target.focus();
      return;
    }
    if (!(target instanceof HTMLInputElement) || target.type !== 'text') return;
    const rows = [...(box.current?.querySelectorAll<HTMLElement>('[data-row]') ?? [])];
    const field = fieldAt(rows[rows.indexOf(row) + by]?.querySelector(`[data-col="${col}"]`));
    if (field === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    field.focus();
  };
  return { box, keep, move, onKeyDownCapture };
}
