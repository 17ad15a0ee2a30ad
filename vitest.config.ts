import { defineConfig } from 'vitest/config';

/**
 * Random cases: how many and of what seed (tests/fixtures/seeds.ts). One seed a run, the same in all its workers: another every
 * time where somebody looks on, always the same where the same commit has to give the same verdict.
 */
const seed = process.env.CI ? 20_261_130 : Math.floor(Math.random() * 1e9);
const env = { SOAK: process.env.SOAK ?? '', SEED: process.env.SEED ?? String(seed) };

/** Three groups: unit and outside checks run in Node; browser tests drive a real Chromium against the built page. */
export default defineConfig({
  test: {
    passWithNoTests: false,
    allowOnly: false,
    reporters: ['default'],
    // Both cores of a small machine; left out, one of two stays idle.
    maxWorkers: 2,
    projects: [
      {
        test: {
          name: 'unit',
          environment: 'node',
          // Plain functions keep nothing between files: the sources are loaded once a worker.
          isolate: false,
          include: ['tests/*.test.ts', 'tests/unit/**/*.test.{ts,tsx}'],
          setupFiles: ['tests/fixtures/seeds.ts'],
          env,
          // It looks at the browser once, when it is loaded: its test loads it anew for each browser.
          server: { deps: { inline: ['browser-fs-access'] } },
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'outside',
          environment: 'node',
          isolate: false,
          include: ['tests/outside/**/*.test.ts'],
          setupFiles: ['tests/fixtures/seeds.ts'],
          env,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/serve.ts'],
          testTimeout: 60_000,
          hookTimeout: 120_000,
          // Else a page that another program slows down for a second fails.
          expect: { poll: { timeout: 15_000 } },
          // A worker's files share one browser.
          isolate: false,
        },
      },
    ],
  },
});
