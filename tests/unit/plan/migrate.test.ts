import { expect, test } from 'vitest';
import { type Document, MIGRATIONS, type Migration, migrate } from '../../../src/plan/migrate.ts';
import { PLAN_VERSION } from '../../../src/plan/schema.ts';

// There is no older version yet, so the steps here are this test's own; the real list is held to having no gap.
const STEPS: Migration[] = [
  { from: 2, up: (document) => ({ ...document, trail: `${document.trail} third` }) },
  { from: 1, up: ({ old, ...rest }) => ({ ...rest, trail: `${old} second` }) },
];

test('MI-1 steps run in the order of their numbers, and write the version', () => {
  const before: Document = { version: 1, old: 'first', kept: { x: 1 } };
  expect(migrate(before, 1, 3, STEPS)).toEqual({ version: 3, trail: 'first second third', kept: { x: 1 } });
  expect(before).toEqual({ version: 1, old: 'first', kept: { x: 1 } });
  expect(migrate({ version: 2, trail: 'x' }, 2, 3, STEPS)).toEqual({ version: 3, trail: 'x third' });
});

test("MI-1 today's version is left as it is", () => {
  const document = { version: PLAN_VERSION };
  expect(migrate(document, PLAN_VERSION, PLAN_VERSION)).toBe(document);
});

test('MI-2 a missing step is an error, not a plan half brought up', () => {
  expect(() => migrate({ version: 1 }, 1, 4, STEPS)).toThrow('No step leads from plan version 3 to 4.');
});

test('MI-2 there is one step from every older version', () => {
  const older = Array.from({ length: PLAN_VERSION - 1 }, (_, i) => i + 1);
  expect(MIGRATIONS.map((step) => step.from).sort((a, b) => a - b)).toEqual(older);
});
