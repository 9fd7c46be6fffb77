import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/corpus/**', 'tests/heavy/**', '**/node_modules/**'],
    testTimeout: 60_000,
    hookTimeout: 240_000,
    pool: 'forks',
    maxWorkers: 2,
  },
});
