/** The build-from command: its sentences, its JSON and its exit status. What is built from what: solve/buildFrom.test.ts. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { buildFromCommand } from '../../../src/cli/buildFromCommand.ts';
import { listening } from './listening.ts';

const PLAN = 'samples/one-up-two-down.legroom.json';
const STOCK = 'samples/rehearsal-room.legroom-stock.json';
const folder = mkdtempSync(join(tmpdir(), 'legroom-build-'));
afterAll(() => rmSync(folder, { recursive: true }));

function build(...words: string[]) {
  const { say, heard } = listening();
  return { status: buildFromCommand(words, say), ...heard() };
}

test('in words and as JSON: one answer, and the status says which', () => {
  const words = build(PLAN, '--stock', STOCK);
  const json = build(PLAN, '--stock', STOCK, '--json');
  expect([words.stderr, json.stderr]).toEqual(['', '']);
  const { buildable, missing } = JSON.parse(json.stdout);
  expect([words.status, json.status]).toEqual(buildable ? [0, 0] : [1, 1]);
  expect(words.stdout).toMatch(/^One up, two down, .+, from Rehearsal room\n/);
  expect(words.stdout.includes('\nMissing\n')).toBe(missing.length > 0);
  expect(words.stdout.includes('\nTo buy\n')).toBe(missing.length > 0);
});

test('of a stock with nothing in it: it cannot be built, status 1', () => {
  const stock = { ...JSON.parse(readFileSync(STOCK, 'utf8')), name: 'Bare room', parts: [] };
  writeFileSync(join(folder, 'bare.json'), JSON.stringify(stock));
  const { status, stdout } = build(PLAN, '--stock', join(folder, 'bare.json'));
  expect(status).toBe(1);
  expect(stdout).toMatch(/, from Bare room\nIt cannot be built/);
});

test.each<[string, string[], RegExp]>([
  ['no stock list', [PLAN], /^A stock list is wanted\. Usage: npm run build-from/],
  [
    'a stock list that is not there',
    [PLAN, '--stock', 'none.json'],
    /^none\.json could not be opened: there is no such/,
  ],
  ['a plan for a stock list', [PLAN, '--stock', PLAN], /legroom\.json: /],
  ['a plan that is not there', ['none.json', '--stock', STOCK], /^none\.json could not be opened/],
  ['an unknown setup', [PLAN, '--stock', STOCK, '--setup', 'Nope'], /no setup "Nope".*"Curved side racks"/],
  ['an unknown flag', [PLAN, '--loud'], /--loud.*Usage/],
])('%s: one sentence, status 2', (_, words, sentence) => {
  const { status, stdout, stderr } = build(...words);
  expect(stderr).toMatch(sentence);
  expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  expect(stdout).toBe('');
  expect(status).toBe(2);
});
