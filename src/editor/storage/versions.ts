/** Earlier states of a plan: when one is kept, and which make room for others. All by the count of changes, never by the clock. */

export interface KeptVersion {
  readonly plan: string;
  /** The changes since the plan was begun. */
  readonly n: number;
  /** Milliseconds since 1970 by the clock of then: to be shown, never to order by. */
  readonly keptAt: number;
  /** The plan's text, compressed where the browser can (packed.ts). */
  readonly text: Packed;
}

export type Packed = string | Uint8Array<ArrayBuffer>;

/** So many states of a plan are kept, and of the newest every one. */
export const VERSIONS = 50;
export const NEWEST_VERSIONS = 20;

/** A state is kept once so many changes have been made since the last one. */
export const VERSION_STEP = 5;

/**
 * Which states have to go so that 50 stay: of those that are neither the first nor among the newest 20, each time the one
 * whose neighbours are the fewest changes apart. So yesterday's states thin out evenly, and the beginning stays.
 *
 * Inputs: the states by their count of changes, in any order. The answer is in no order.
 */
export function versionsToThin(counts: readonly number[], most = VERSIONS, newest = NEWEST_VERSIONS): number[] {
  const stay = [...counts].sort((a, b) => a - b);
  const gone: number[] = [];
  while (stay.length > most) {
    let least = 1;
    for (let k = 2; k < stay.length - newest; k++)
      if (stay[k + 1] - stay[k - 1] < stay[least + 1] - stay[least - 1]) least = k;
    gone.push(...stay.splice(least, 1));
  }
  return gone;
}
