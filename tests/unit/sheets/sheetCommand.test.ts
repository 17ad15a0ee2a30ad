/** The command itself, as somebody types it: exit status, sentences, the file. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'legroom-sheet-'));
afterAll(() => rmSync(folder, { recursive: true }));

const FILE = 'samples/compact-one-up-two-down.legroom.json';
const out = join(folder, 'out.pdf');

function sheet(...words: string[]) {
  const run = spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/sheet.ts', ...words], { encoding: 'utf8' });
  return { status: run.status, said: run.stdout, complained: run.stderr.trim() };
}

test('a sheet is written, its pages and scale are said', { timeout: 60_000 }, () => {
  const { status, said } = sheet(
    FILE,
    '--setup',
    'Curved side racks',
    '-o',
    out,
    '--date',
    '2026-03-14',
    '--paper',
    'letter',
  );
  expect(said).toMatch(/one page\. Venue sheet, scale 1:20 on Letter\./);
  expect(status).toBe(0);
  expect(readFileSync(out).subarray(0, 5).toString()).toBe('%PDF-');
});

test.each<[string, string[], RegExp]>([
  ['no place for it', [FILE], /-o/],
  ['another paper', [FILE, '-o', out, '--paper', 'a3'], /no paper "a3"/],
  ['a day that is none', [FILE, '-o', out, '--date', '2026-02-30'], /is no day/],
  ['an unknown setup', [FILE, '-o', out, '--setup', 'Nope'], /no setup "Nope".*"Curved side racks"/],
  ['a file that is not there', [join(folder, 'none.json'), '-o', out], /no such file/],
  ['a folder that is not there', [FILE, '-o', join(folder, 'no', 'out.pdf')], /no such folder/],
])('%s: one sentence, status 2', { timeout: 60_000 }, (_, words, sentence) => {
  const { status, complained } = sheet(...words);
  expect(complained).toMatch(sentence);
  expect(complained.split('\n')).toHaveLength(1);
  expect(status).toBe(2);
});
