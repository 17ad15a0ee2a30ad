/** How far work has come that is done elsewhere. */

/** Parts done of parts in all. */
export type Progress = (done: number, all: number) => void;

/**
 * Does the work, and tells of its progress until it is over. What a worker says of its progress comes by another port than its
 * answer, so that it may come after it: then it is of no work that goes on, and is not told.
 */
export async function untilOver<T>(tell: Progress, work: (progress: Progress) => Promise<T>): Promise<T> {
  let isOver = false;
  try {
    return await work((done, all) => {
      if (!isOver) tell(done, all);
    });
  } finally {
    isOver = true;
  }
}
