import { defineConfig } from 'vitest/config';

/** Checks that need Debian packages (a browser, a PDF reader) or minutes. */
export default defineConfig({
  root: new URL('../..', import.meta.url).pathname,
  test: {
    include: ['tests/heavy/**/*.test.ts'],
    testTimeout: 600_000,
    hookTimeout: 600_000,
    setupFiles: ['tests/support/load-fft.ts'],
    pool: 'forks',
    maxWorkers: 1,
  },
});
