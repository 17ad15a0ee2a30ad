/** Marks on plans that broke the page. */
import { expect, test } from 'vitest';
import { openingMarks } from '../../../src/editor/storage/openingMarks.ts';
import { memoryMarks } from './storage.fakes.ts';

test('a plan that is never drawn is brought back once more, and then waits for the word', () => {
  const storage = memoryMarks();
  const visit = () => openingMarks(() => storage);
  visit().opening('kit');
  expect(visit().isHeldBack('kit')).toBe(false);
  visit().opening('kit');
  expect(visit().isHeldBack('kit')).toBe(true);
  expect(visit().isHeldBack('another')).toBe(false);
  visit().opened('kit');
  expect(visit().isHeldBack('kit')).toBe(false);
});

test('a plan that was seen to break the page waits at once', () => {
  const storage = memoryMarks();
  const marks = openingMarks(() => storage);
  marks.opening('kit');
  marks.broke('kit');
  expect(marks.isHeldBack('kit')).toBe(true);
});

test('without storage nothing is held back, and nothing throws', () => {
  const marks = openingMarks(() => {
    throw new DOMException('no', 'SecurityError');
  });
  marks.opening('kit');
  marks.broke('kit');
  marks.opened('kit');
  expect(marks.isHeldBack('kit')).toBe(false);
});
