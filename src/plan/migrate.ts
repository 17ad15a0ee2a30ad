/**
 * Older plans to the version of today, one small numbered step at a time.
 *
 * Version 1 is the first there ever was, so there is no step yet. The first change of the format that old files do not
 * already keep adds `{ from: 1, up }` here, PLAN_VERSION 2, and a test with a file before and after.
 */

/** Any JSON object; what is in it is not known before the schema has seen it. */
export type Document = Readonly<Record<string, unknown>>;

export interface Migration {
  /** Turns a document of this version into one of the next; it need not write the version itself. */
  readonly from: number;
  up(document: Document): Document;
}

export const MIGRATIONS: readonly Migration[] = [];

/**
 * The document at version `to`. It never changes the one given.
 * Inputs: a document of version `from`, at most `to`. Throws: RangeError where a step is missing: a mistake of ours.
 */
export function migrate(
  document: Document,
  from: number,
  to: number,
  steps: readonly Migration[] = MIGRATIONS,
): Document {
  let current = document;
  for (let version = from; version < to; version++) {
    const step = steps.find((each) => each.from === version);
    if (!step) throw new RangeError(`No step leads from plan version ${version} to ${version + 1}.`);
    current = { ...step.up(current), version: version + 1 };
  }
  return current;
}
