/** What is told of the progress of work that is done in a worker, whose messages may come in another order than they were sent. */
import { expect, test } from 'vitest';
import { type Progress, untilOver } from '../../../src/editor/panels/sheets/progress.ts';

test.each([
  ['an answer', () => Promise.resolve('drawn')],
  ['a refusal', () => Promise.reject(new Error('too large'))],
])('after %s no message of progress is told, however late it comes', async (_, end) => {
  const told: string[] = [];
  let late: Progress = () => undefined;
  const work = untilOver(
    (done, all) => told.push(`${done} of ${all}`),
    async (tell) => {
      late = tell;
      tell(1, 3);
      await Promise.resolve();
      tell(2, 3);
      return end();
    },
  );
  await work.catch(() => 'refused');
  // As the page does: the bar goes with the answer, and must not come back.
  told.push('bar gone');
  late(3, 3);
  await Promise.resolve();
  late(3, 3);
  expect(told).toEqual(['1 of 3', '2 of 3', 'bar gone']);
});
