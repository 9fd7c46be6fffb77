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

  it('loads what charts need while nobody waits: the first chart of a session is drawn like any other', async () => {
    const draw = `
      const spec = { $schema: 'https://vega.github.io/schema/vega-lite/v5.json', description: '', data: { values: [{ a: 1 }] }, mark: 'bar' };
      const times = [performance.now()];
      for (let i = 0; i < 2; i++) { await charts.toSvg(spec); times.push(performance.now()); }
      (times[1] - times[0]) / (times[2] - times[1])`;
    const ratios: number[] = [];
    for (let i = 0; i < 3; i++) {
      const kernel = startKernel(process.cwd());
      await kernel.run('1 + 1', () => undefined, { cell: 1 });
      await new Promise((resolve) => setTimeout(resolve, 3000));
      await kernel.run(draw, (m) => m.kind === 'result' && ratios.push(Number(m.data['text/plain'])), { cell: 2 });
      kernel.close();
    }
    // Unprepared it is forty.
    expect(Math.min(...ratios)).toBeLessThan(10);
  });
});
