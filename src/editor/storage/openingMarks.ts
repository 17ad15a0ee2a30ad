/**
 * Which plans broke the page, so that none is brought back by itself twice. A mark is written before a plan is shown and taken
 * away when it is drawn: what stays marked froze the page, or ended it, and left no time to say so.
 *
 * Marks stand in localStorage, which is written at once. A browser that keeps nothing brings back no plan either.
 */

export interface OpeningMarks {
  /** This plan is about to be shown. */
  opening(id: string): void;
  /** It is drawn: nothing is the matter with it. */
  opened(id: string): void;
  /** It broke the page. */
  broke(id: string): void;
  /** Whether it must wait for the user's word: it broke the page, or was never drawn in two visits. */
  isHeldBack(id: string): boolean;
}

/** The part of Storage that is used, so that tests can bring their own. */
export type MarkStorage = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

const BROKEN = 2;
const keyOf = (id: string) => `legroom-opening-${id}`;

/** `storage` is asked for each time: to look at it alone may throw. */
export function openingMarks(storage: () => MarkStorage): OpeningMarks {
  const quietly = <T>(work: (marks: MarkStorage) => T, otherwise: T): T => {
    try {
      return work(storage());
    } catch {
      return otherwise;
    }
  };
  const countOf = (id: string) => quietly((marks) => Number(marks.getItem(keyOf(id)) ?? 0), 0);
  const write = (id: string, count: number) => quietly((marks) => marks.setItem(keyOf(id), String(count)), undefined);
  return {
    opening: (id) => write(id, countOf(id) + 1),
    opened: (id) => quietly((marks) => marks.removeItem(keyOf(id)), undefined),
    broke: (id) => write(id, BROKEN),
    isHeldBack: (id) => countOf(id) >= BROKEN,
  };
}
