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

/** One answer that an object keeps; `by`: the number of its keeper. Answers of several keepers hang on one another. */
interface Answer {
  readonly by: number;
  from: readonly unknown[];
  value: unknown;
  readonly next: Answer | null;
}

/** Gives its argument back, so that a class which extends this puts its private fields on an object that is there already. */
const Itself = function itself(key: object) {
  return key;
} as unknown as new (
  key: object,
) => object;

/**
 * Answers kept on the object itself, where nothing else can see or copy them. A WeakMap does the same, but a collection of young objects
 * takes its answers for needed whether or not their keys are: what a frame of a drag made would outlive it by many frames.
 */
class Keeping extends Itself {
  #first: Answer | null = null;

  static answer(key: object, by: number): Answer | null {
    if (!(#first in key)) return null;
    let answer = (key as Keeping).#first;
    while (answer !== null && answer.by !== by) answer = answer.next;
    return answer;
  }

  static add(key: object, by: number, from: readonly unknown[], value: unknown): void {
    const keeping = #first in key ? (key as Keeping) : (new Keeping(key) as Keeping);
    keeping.#first = { by, from, value, next: keeping.#first };
  }
}

/** For what is frozen, as plans are. */
const frozen = new WeakMap<object, Answer[]>();

function answerOf(key: object, by: number): Answer | null {
  const own = Keeping.answer(key, by);
  if (own !== null) return own;
  return frozen.get(key)?.find((answer) => answer.by === by) ?? null;
}

function keep(key: object, by: number, from: readonly unknown[], value: unknown): void {
  if (Object.isExtensible(key)) {
    Keeping.add(key, by, from, value);
    return;
  }
  const answers = frozen.get(key);
  const answer = { by, from, value, next: null };
  if (answers) answers.push(answer);
  else frozen.set(key, [answer]);
}

let keepers = 0;

/** `from` must name all that `make` reads, but for the key itself: tests/unit/keep.test.ts holds every use to fresh answers. */
export function keeper<V>(): Keep<V> {
  const by = keepers++;
  return (key, from, make) => {
    const before = answerOf(key, by);
    if (before !== null && same(before.from, from)) return before.value as V;
    const value = make();
    // Made meanwhile by itself, perhaps: the last one stays.
    const again = answerOf(key, by);
    if (again === null) keep(key, by, from, value);
    else {
      again.from = from;
      again.value = value;
    }
    return value;
  };
}

const NOTHING: readonly unknown[] = [];

/** For what is made from its key alone. */
export function kept<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const by = keepers++;
  return (key) => {
    const before = answerOf(key, by);
    if (before !== null) return before.value as V;
    const value = make(key);
    keep(key, by, NOTHING, value);
    return value;
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
