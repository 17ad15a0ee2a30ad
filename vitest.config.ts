import { defineConfig } from 'vitest/config';

/** Three groups: unit and outside checks run in Node; browser tests drive a real Chromium against the built page. */
export default defineConfig({
  test: {
    passWithNoTests: false,
    allowOnly: false,
    reporters: ['default'],
    projects: [
      {
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/*.test.ts', 'tests/unit/**/*.test.{ts,tsx}'],
          testTimeout: 120_000,
        },
      },
      { test: { name: 'outside', environment: 'node', include: ['tests/outside/**/*.test.ts'], testTimeout: 120_000 } },
      {
        test: {
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/serve.ts'],
          testTimeout: 60_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
