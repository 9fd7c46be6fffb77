import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/corpus/**', 'tests/heavy/**', '**/node_modules/**'],
    testTimeout: 60_000,
    hookTimeout: 240_000,
    // What somebody at this machine has said about their own tracks is nothing to the tests.
    env: { BARWISE_CORRECTIONS: join(tmpdir(), 'barwise-no-corrections') },
    setupFiles: ['tests/support/load-fft.ts'],
    pool: 'forks',
    maxWorkers: 2,
  },
});
