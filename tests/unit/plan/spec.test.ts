import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { HISTORY_LENGTH } from '../../../src/plan/history.ts';
import { LIMITS } from '../../../src/plan/schema.ts';

const room = (name: string) => readFileSync(new URL(`../../../src/plan/${name}`, import.meta.url), 'utf8');
const ID = /\b(?:PL|RD|WR|MI|JS|RF|PC|RK|SE|DO|HI)-\d+\b/g;

test('every rule of SPEC.md has a test that carries its id, and no test names a rule that is not there', () => {
  const ruled = [...room('SPEC.md').matchAll(/^\| ([A-Z]{2}-\d+) +\|/gm)].map((row) => row[1]);
  expect(new Set(ruled).size).toBe(ruled.length);
  const tested = new Set<string>();
  for (const file of readdirSync(import.meta.dirname).filter((name) => name.endsWith('.test.ts'))) {
    const names =
      readFileSync(new URL(file, import.meta.url), 'utf8').match(
        /^.*['"`](?:PL|RD|WR|MI|JS|RF|PC|RK|SE|DO|HI)-\d+ .*$/gm,
      ) ?? [];
    for (const name of names) for (const id of name.match(ID) ?? []) tested.add(id);
  }
  expect([...tested].sort()).toEqual([...ruled].sort());
});

test('every code of a problem in the code is in SPEC.md', () => {
  const spec = room('SPEC.md');
  const sources = ['rules.ts', 'rackRules.ts', 'mountRules.ts', 'read.ts', 'schemaWords.ts'].map(room).join('\n');
  const codes = new Set([...sources.matchAll(/'([a-z]+(?:_[a-z]+)+)'/g)].map((match) => match[1]));
  // The schema library's own codes, which schemaWords.ts turns into ours.
  const foreign = /^(?:invalid_.*|too_small)$/;
  expect([...codes].filter((code) => !spec.includes(`\`${code}\``) && !foreign.test(code))).toEqual([]);
  expect(codes.size).toBeGreaterThan(20);
});

test('the README states the limits that hold', () => {
  const file = room('README.md')
    .match(/## The file\n\n([\s\S]*?)\n\n/)![1]
    .replace(/\s+/g, ' ');
  expect(file).toContain(
    `(${LIMITS.bytes} bytes), ${LIMITS.nesting} levels of nesting, ${LIMITS.setups} setups of ${LIMITS.pieces} pieces each`,
  );
  expect(file).toContain(`${LIMITS.risers} risers of ${LIMITS.modules} modules`);
  expect(file).toContain(`${LIMITS.legs} legs and ${LIMITS.barsPerSpan} bars a span, ${LIMITS.gear} gear entries`);
  expect(room('SPEC.md')).toContain(`the last ${HISTORY_LENGTH} entries`);
});
