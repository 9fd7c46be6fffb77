import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { describe, expect, it } from 'vitest';
import { startKernel } from '../../src/notebook/kernel/process.js';

/** The compiler alone, set up and asked once: what no kernel of TypeScript can do without. */
const COMPILER_ALONE = `
const { createConverter } = require(${JSON.stringify(createRequire(import.meta.url).resolve('tslab/dist/converter.js'))});
createConverter({ isJS: false, isBrowser: false }).convert('', '1 + 1');
process.exit();`;

describe('the start of the kernel', () => {
  it('costs little more than that of its compiler: the library loads beside it', async () => {
    const rounds = [];
    for (let i = 0; i < 3; i++) {
      const before = performance.now();
      expect(spawnSync(process.execPath, ['-e', COMPILER_ALONE], { cwd: process.cwd() }).status).toBe(0);
      const compiled = performance.now();
      const kernel = startKernel(tmpdir());
      expect(await kernel.run('1 + 1', () => undefined, { cell: 1 })).toBe('ok');
      rounds.push((performance.now() - compiled) / (compiled - before));
      kernel.close();
    }
    expect(Math.min(...rounds)).toBeLessThan(3);
  });
});
