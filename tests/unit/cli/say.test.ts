import { afterEach, expect, test, vi } from 'vitest';
import { harmless, startCommand } from '../../../src/cli/say.ts';

afterEach(() => {
  process.exitCode = undefined;
  vi.restoreAllMocks();
});

test('a command that fails exits 3, as 1 says that something is blocked', async () => {
  const err = vi.spyOn(console, 'error').mockImplementation(() => undefined);
  await startCommand(() => {
    throw new Error('no such \u001b[2J thing');
  });
  expect(process.exitCode).toBe(3);
  expect(err).toHaveBeenCalledExactlyOnceWith('Legroom failed at this: no such \\u001b[2J thing');
});

test.each([0, 1, 2])('status %s of a command is that of the process', async (status) => {
  await startCommand(() => status);
  expect(process.exitCode).toBe(status);
});

test('JSON made harmless is the same JSON', () => {
  const value = { name: 'a\u0000\u001b[2J\u0085\u009b\u202e\tb\n', list: ['é', '\u2066'] };
  const said = harmless(JSON.stringify(value));
  expect(JSON.parse(said)).toEqual(value);
  expect(said).toMatch(/^[\x20-\x7eé]+$/);
});
