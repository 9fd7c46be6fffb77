import { fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { packageFolder } from '../../src/notebook/home.js';

describe('packages that come and go while a notebook is open', () => {
  const base = mkdtempSync(join(tmpdir(), 'barwise-packages-'));
  mkdirSync(join(base, 'node_modules'));
  symlinkSync(packageFolder(), join(base, 'node_modules', 'barwise'));
  const child = fork(fileURLToPath(new URL('../../src/notebook/kernel/child.mjs', import.meta.url)), [base], {
    cwd: base,
    stdio: ['ignore', 'ignore', 'inherit', 'ipc', 'pipe'],
    serialization: 'advanced',
    execArgv: ['--no-warnings'],
  });
  const ready = once(child, 'message');
  afterAll(() => {
    child.kill('SIGKILL');
    rmSync(base, { recursive: true, force: true });
  });

  interface Said {
    readonly kind: string;
    readonly evalue?: string;
    readonly data?: Record<string, string>;
  }
  let cell = 0;
  const run = (code: string) =>
    new Promise<string>((resolve) => {
      let last = '';
      const listen = (message: Said) => {
        if (message.kind === 'done') {
          child.off('message', listen);
          resolve(last);
        } else last = message.evalue ?? message.data?.['text/plain'] ?? last;
      };
      child.on('message', listen);
      child.send({ kind: 'run', code, cell: ++cell });
    });

  it('has the next cell run, and takes what was installed', async () => {
    await ready;
    expect(await run('1 + 1')).toBe('2');
    expect(await run("import { bars } from 'bar-counter';")).toMatch(/Cannot find module/);
    const arriving = join(base, 'arriving');
    mkdirSync(arriving);
    writeFileSync(
      join(arriving, 'package.json'),
      '{ "name": "bar-counter", "main": "index.js", "types": "index.d.ts" }',
    );
    writeFileSync(join(arriving, 'index.js'), 'exports.bars = 8;');
    writeFileSync(join(arriving, 'index.d.ts'), 'export declare const bars: number;');
    renameSync(arriving, join(base, 'node_modules', 'bar-counter'));
    expect(await run('2 + 2')).toBe('4');
    expect(await run("import { bars } from 'bar-counter';\nbars * 4")).toBe('32');
    rmSync(join(base, 'node_modules', 'bar-counter'), { recursive: true });
    expect(await run('bars * 8')).toBe('64');
    expect(await run('3 + 3')).toBe('6');
  });
});
