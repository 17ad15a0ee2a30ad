/** Lists put together by what their items share. A leaf: it imports nothing. */

/** Items by key, the keys in the order of their first items. */
export function grouped<T, K>(items: Iterable<T>, keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return groups;
}

/** By code units, as every machine sorts them; never by a language's rules. */
export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

export const sumOf = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((sum, item) => sum + of(item), 0);

/** x and y one by one to points. */
export function pointsOf(flat: readonly number[]): [x: number, y: number][] {
  return Array.from({ length: flat.length / 2 }, (_, k) => [flat[2 * k], flat[2 * k + 1]]);
}
