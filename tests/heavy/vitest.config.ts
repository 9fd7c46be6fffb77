import { defineConfig } from 'vitest/config';

/** Suites of minutes that hold nothing to a time and write only to folders of their own: two at once. */
const TOGETHER = [
  'tests/heavy/crate/kill.test.ts',
  'tests/heavy/corrections/kill.test.ts',
  'tests/heavy/escape/*.test.ts',
  'tests/heavy/docs/*.test.ts',
  'tests/heavy/notebooks.test.ts',
  'tests/heavy/practice-files.test.ts',
  'tests/heavy/self-test.test.ts',
];
const COMMON = {
  testTimeout: 600_000,
  hookTimeout: 600_000,
  setupFiles: ['tests/support/load-fft.ts'],
  pool: 'forks' as const,
};

/** Checks that need Debian packages (a browser, a PDF reader) or minutes. */
export default defineConfig({
  root: new URL('../..', import.meta.url).pathname,
  test: {
    projects: [
      { test: { ...COMMON, name: 'together', include: TOGETHER, maxWorkers: 2, sequence: { groupOrder: 0 } } },
      {
        test: {
          ...COMMON,
          name: 'alone',
          include: ['tests/heavy/**/*.test.ts'],
          exclude: TOGETHER,
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
