/**
 * Answers kept for as long as what they are made from is the same. The one memo of the program.
 *
 * A keeper holds one answer for each key, and what it was made from. Asked again, it gives that answer when everything is the same
 * object (or number, or text), and makes a new one otherwise. A list counts as the same when its items are: lists are gathered anew
 * in each frame of a drag, while their bodies stay. This works because nothing in a plan or a layout is ever changed in place.
 *
 * The key should be what outlives the frame: a piece of the plan, a body, a riser. An answer goes when its key does.
 */
export type Keep<V> = (key: object, from: readonly unknown[], make: () => V) => V;

interface Kept<V> {
  readonly from: readonly unknown[];
  readonly value: V;
}

/** `from` must name all that `make` reads, but for the key itself: tests/unit/keep.test.ts holds every use to fresh answers. */
export function keeper<V>(): Keep<V> {
  const kept = new WeakMap<object, Kept<V>>();
  return (key, from, make) => {
    const before = kept.get(key);
    if (before !== undefined && same(before.from, from)) return before.value;
    const value = make();
    kept.set(key, { from, value });
    return value;
  };
}

/** For what is made from its key alone. */
export function kept<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const answers = new WeakMap<K, { readonly value: V }>();
  return (key) => {
    let answer = answers.get(key);
    if (answer === undefined) {
      answer = { value: make(key) };
      answers.set(key, answer);
    }
    return answer.value;
  };
}

/** A value that is worked out when it is first asked for. */
export function once<V>(make: () => V): () => V {
  let made: { readonly value: V } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  for (let i = 0; i < b.length; i++) {
    const [one, other] = [a[i], b[i]];
    if (Object.is(one, other)) continue;
    if (!Array.isArray(one) || !Array.isArray(other) || !sameItems(one, other)) return false;
  }
  return a.length === b.length;
}

/** Whether two lists hold the same objects in the same order. */
export function sameItems(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return false;
  return true;
}
