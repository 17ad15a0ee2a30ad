import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Check } from '../../../src/checks/codes.ts';
import { CHECKS } from '../../../src/checks/run.ts';

const spec = readFileSync(new URL('../../../src/checks/SPEC.md', import.meta.url), 'utf8');
const rules = [...spec.matchAll(/^\| ([A-Z]{2}-\d+) \| (\w+) \|[^|]*\|([^|]*)\|/gm)].map(([, id, check, codes]) => ({
  id,
  check,
  codes: [...codes.matchAll(/`(\w+)`/g)].map(([, code]) => code),
}));

const tests = readdirSync(import.meta.dirname)
  .filter((name) => name.endsWith('.test.ts') && name !== 'spec.test.ts')
  .map((name) => readFileSync(new URL(name, import.meta.url), 'utf8'))
  .join('\n');

test('every rule of SPEC.md has a test that carries its id, and no test names a rule that is not there', () => {
  const ids = rules.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  const named = [...tests.matchAll(/['"`]([A-Z]{2}-\d+) /g)].map(([, id]) => id);
  expect([...new Set(named)].sort()).toEqual(ids.sort());
});

test('every code of a finding stands beside a rule of its own check, and no other code does', () => {
  const made = CHECKS.flatMap(({ says }): readonly Check[] => says).flatMap(({ name, codes }) =>
    Object.keys(codes).map((code) => `${name} ${code}`),
  );
  const ruled = rules.flatMap(({ check, codes }) => codes.map((code) => `${check} ${code}`));
  expect([...new Set(ruled)].sort()).toEqual(made.sort());
  expect(made.length).toBeGreaterThan(45);
});

test('every code is asked for by name in a test', () => {
  for (const { id, codes } of rules) for (const code of codes) expect(tests, id).toContain(`'${code}'`);
});
