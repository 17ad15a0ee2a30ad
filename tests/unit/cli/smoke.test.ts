/** Each command once as somebody starts it: a process, from a folder of their own, with the streams and the status of a process. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import type { Plan } from '../../../src/plan/schema.ts';

const root = resolve(import.meta.dirname, '../../..');
const folder = mkdtempSync(join(tmpdir(), 'legroom-command-'));
afterAll(() => rmSync(folder, { recursive: true }));

const PLAN = 'one-up-two-down.legroom.json';
const STOCK = 'rehearsal-room.legroom-stock.json';
for (const name of [PLAN, STOCK]) copyFileSync(join(root, 'samples', name), join(folder, name));

/** As `npm run` does it: npm says in INIT_CWD where the user stands. */
function command(...words: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, 'tools/run.mjs'), ...words], {
    cwd: root,
    env: { ...process.env, INIT_CWD: folder },
    encoding: 'utf8',
  });
  return { status, stdout, stderr };
}

test('measure: the report on stdout, and the status says whether something is blocked', () => {
  const { status, stdout, stderr } = command('measure', PLAN);
  expect(stderr).toBe('');
  expect(stdout).toMatch(/^One up, two down\n/);
  expect(stdout).toMatch(/\nFloor taken \(hull\) +[\d.]+ ft²/);
  expect(status).toBe(/^ {2}BLOCKED/m.test(stdout) ? 1 : 0);
});

test('sheet: by the setup’s name, written beside the plan', () => {
  const words = ['--setup', 'Curved side racks', '-o', 'run.pdf', '--date', '2026-03-14', '--paper', 'letter'];
  const { status, stdout, stderr } = command('sheet', PLAN, ...words);
  expect(stderr).toBe('');
  expect(stdout).toMatch(/^run\.pdf: .*page.*scale 1:20 on Letter/);
  expect(status).toBe(0);
  expect(readFileSync(join(folder, 'run.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
});

test('build-from: what cannot be done is a sentence on stderr, status 2, and no trace of the inside', () => {
  const { status, stdout, stderr } = command('build-from', PLAN, '--stock', 'none.json');
  expect(status).toBe(2);
  expect(stdout).toBe('');
  expect(stderr).toBe('none.json could not be opened: there is no such file.\n');
});

test('codes for the terminal in a plan’s texts reach it as words', () => {
  const sample = JSON.parse(readFileSync(join(folder, PLAN), 'utf8')) as Plan;
  const hostile = { ...sample, name: 'Kit\u001b]0;owned\u0007\u009b31m\u202e' };
  // With a second byte order mark, which a browser would have let through.
  writeFileSync(join(folder, 'hostile.legroom.json'), `\ufeff\ufeff${JSON.stringify(hostile)}`);
  const { stdout, stderr } = command('measure', 'hostile.legroom.json');
  expect(stderr).toBe('');
  expect(stdout).toMatch(/^Kit\\u001b\]0;owned\\u0007\\u009b31m\\u202e\n/);
});

test('a reader that goes away ends a command without a word', () => {
  const { stderr } = spawnSync(
    'sh',
    [
      '-c',
      `${process.execPath} --import ${JSON.stringify(import.meta.resolve('tsx'))} ${join(root, 'src/cli/measure.ts')} ${PLAN} --json | true`,
    ],
    {
      cwd: folder,
      encoding: 'utf8',
    },
  );
  expect(stderr).toBe('');
});
