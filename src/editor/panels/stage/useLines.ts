/** A list of lines that are moved, removed and added: what is said of it, and which field has the focus afterwards. */
import { useState } from 'react';
import { moved } from './listEdits.ts';
import { useRows } from './useRows.ts';

export interface LinesOptions<T> {
  /** The list as it stands at the moment of a change, not as it was last drawn. */
  readonly list: () => readonly T[];
  readonly put: (next: readonly T[]) => string | null;
  /** How a line is known: by its id, or by its place where it has none. */
  readonly idOf: (line: T, at: number) => string;
  /** `at`: from 0. */
  readonly whenMoved: (line: T, from: number, to: number) => string;
  readonly whenGone: (line: T, at: number) => string;
}

export function useLines<T>({ list, put, idOf, whenMoved, whenGone }: LinesOptions<T>) {
  const [said, setSaid] = useState('');
  const rows = useRows((row, by) => {
    const old = list();
    const from = old.findIndex((line, at) => idOf(line, at) === row);
    const next = moved(old, from, by);
    if (next === old) return null;
    put(next);
    const to = from + by;
    setSaid(whenMoved(next[to], from, to));
    return idOf(next[to], to);
  });
  return {
    rows,
    said,
    say: setSaid,
    remove: (at: number) => {
      const old = list();
      const left = old.toSpliced(at, 1);
      put(left);
      const beside = Math.min(at, left.length - 1);
      if (beside >= 0) rows.keep({ row: idOf(left[beside], beside), col: 'remove' });
      setSaid(whenGone(old[at], at));
    },
    /** `col`: the field that one writes in first. */
    add: (line: T, col: string) => {
      const old = list();
      rows.keep({ row: idOf(line, old.length), col });
      put([...old, line]);
    },
  };
}
