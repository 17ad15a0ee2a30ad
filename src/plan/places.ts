/**
 * Places in a plan said in words: `Setup "Straight racks", piece "Left rack", bar 1`.
 *
 * The plan may be broken, so nothing about it is taken for granted here.
 */

/** A way into the document, as a list of keys and list numbers. */
export type Path = readonly (string | number)[];

/** What is wrong with a plan, or with what was to become of it. */
export interface Problem {
  /** For programs: stays the same when the words change. */
  readonly code: string;
  readonly place: string;
  /** One sentence for a person, the place included. */
  readonly sentence: string;
}

/** The first answer that is not null, asked for one item after another. */
export function firstOf<T, Found>(items: Iterable<T>, of: (item: T) => Found | null): Found | null {
  for (const item of items) {
    const found = of(item);
    if (found !== null) return found;
  }
  return null;
}

export const THE_PLAN = 'The plan';

/** A record's own entry: never something that every JavaScript object has, such as `toString`. */
export function own<T>(record: Readonly<Record<string, T>>, id: string): T | undefined {
  return Object.hasOwn(record, id) ? record[id] : undefined;
}

/** The value at a path, or undefined where the path leaves the document. */
export function valueAt(root: unknown, path: Path): unknown {
  let value = root;
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<string | number, unknown>)[key];
  }
  return value;
}

/** Names and ids come from the file: shortened, so that a sentence stays one. */
export function quoted(name: unknown): string {
  const text = String(name).replace(/\s+/g, ' ');
  return `"${text.length > 60 ? `${text.slice(0, 57)}...` : text}"`;
}

/** `a, b or c`. */
export function alternatives(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}

/**
 * The name of a thing in a record, or its key when it has none. Where another entry has the same name (two crashes, say),
 * the key comes with it.
 */
function nameOf(root: unknown, path: Path): string {
  const record = valueAt(root, path.slice(0, -1));
  const key = path[path.length - 1];
  const nameIn = (id: string | number) => {
    const name = valueAt(record, [id, 'name']);
    return typeof name === 'string' && name.trim() !== '' ? name : null;
  };
  const name = nameIn(key);
  if (name === null) return quoted(key);
  const others = typeof record === 'object' && record !== null ? Object.keys(record) : [];
  const alone = others.filter((id) => nameIn(id) === name).length < 2;
  return alone ? quoted(name) : `${quoted(name)} (id ${quoted(key)})`;
}

/** Records whose entries have names, and lists whose entries have numbers, with the word for one entry. */
const RECORDS: Readonly<Record<string, string>> = {
  setups: 'setup',
  pieces: 'piece',
  risers: 'riser',
  stages: 'stage',
  drummers: 'drummer',
  gear: 'gear',
  partNotes: 'part note',
};
const LISTS: Readonly<Record<string, string>> = {
  legs: 'leg',
  spans: 'span',
  bars: 'bar',
  ties: 'tie',
  modules: 'module',
  wings: 'wing',
  outline: 'corner',
  inputs: 'input',
  mixes: 'mix',
  cables: 'cable run',
  points: 'point',
  venueProvides: 'line for the venue',
};
/** Parts worth naming on the way. */
const PARTS: Readonly<Record<string, string>> = {
  mount: 'mount',
  foot: 'foot',
  bend: 'bend',
  second: 'second pedal',
  limits: 'limits',
  power: 'power',
  measuredMm: 'tape',
};

/** A rack with one span has bars 1, 2, 3: the span itself needs no word. */
function isOnlySpan(root: unknown, path: Path): boolean {
  const spans = valueAt(root, path);
  return Array.isArray(spans) && spans.length === 1;
}

/**
 * The place in words, and the field that is left of the path ('' when none).
 * `["setups","s","pieces","p","place","xMm"]` -> `Setup "S", piece "P"` and `xMm`.
 */
export function placeInWords(root: unknown, path: Path): { place: string; field: string } {
  const words: string[] = [];
  let rest = 0;
  for (let i = 0; i < path.length; i++) {
    const key = path[i];
    const next = path[i + 1];
    if (typeof key === 'string' && typeof next === 'string' && Object.hasOwn(RECORDS, key) && i + 1 < path.length) {
      words.push(`${RECORDS[key]} ${nameOf(root, path.slice(0, i + 2))}`);
      rest = ++i + 1;
    } else if (typeof key === 'string' && typeof next === 'number' && Object.hasOwn(LISTS, key)) {
      if (key !== 'spans' || !isOnlySpan(root, path.slice(0, i + 1))) words.push(`${LISTS[key]} ${next + 1}`);
      rest = ++i + 1;
    } else if (typeof key === 'string' && next !== undefined && Object.hasOwn(PARTS, key)) {
      words.push(PARTS[key]);
      rest = i + 1;
    } else if (key === 'place' || key === 'carrier') {
      rest = Math.min(i + 1, path.length - 1);
    }
  }
  const place = words.length === 0 ? THE_PLAN : words.join(', ');
  return { place: place[0].toUpperCase() + place.slice(1), field: path.slice(rest).join('.') };
}

/** A problem at a path of a document; `reason` goes on after `place: `. */
export function problemAt(root: unknown, path: Path, code: string, reason: string): Problem {
  const { place } = placeInWords(root, path);
  return { code, place, sentence: `${place}: ${reason}` };
}
