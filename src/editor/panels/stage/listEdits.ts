/** Lists of lines that are edited whole: moved, replaced, removed, added to. Pure. */
import { firstFree } from '../gear/newPiece.ts';

/** The list with its entry `at` moved by so many places, as far as the ends allow. The same list when nothing moves. */
export function moved<T>(list: readonly T[], at: number, by: number): readonly T[] {
  const to = Math.min(list.length - 1, Math.max(0, at + by));
  if (at < 0 || at >= list.length || to === at) return list;
  const rest = list.toSpliced(at, 1);
  return rest.toSpliced(to, 0, list[at]);
}

/** The thing with fields of it set; an undefined field is taken away. */
export function withChange<T extends object>(thing: T, change: Partial<T>): T {
  const next = { ...thing, ...change };
  for (const key of Object.keys(change) as (keyof T)[]) if (next[key] === undefined) delete next[key];
  return next;
}

type WithId = { readonly id: string };

/** The list with fields of one entry set; an undefined field is taken away. */
export function changed<T extends WithId>(list: readonly T[], id: string, change: Partial<T>): T[] {
  return list.map((one) => (one.id === id ? withChange(one, change) : one));
}

export const without = <T extends WithId>(list: readonly T[], id: string): T[] => list.filter((one) => one.id !== id);

/** An id for one more entry: the first of `base-1`, `base-2` ... that is free. */
export const nextId = (base: string, list: readonly WithId[]): string =>
  firstFree(
    (n) => `${base}-${n}`,
    list.map(({ id }) => id),
  );
