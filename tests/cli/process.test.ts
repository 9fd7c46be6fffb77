import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clubWav } from './support.js';

const MAIN = fileURLToPath(new URL('../../src/cli/main.ts', import.meta.url));
const TSX = import.meta.resolve('tsx');

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'barwise-process-'));
  const wav = clubWav(120, 64);
  // More than any machine analyses before it is interrupted.
  for (let i = 1; i <= 16; i++) writeFileSync(join(root, `${i}.wav`), wav);
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

function start(...argv: string[]): ChildProcess {
  return spawn(process.execPath, ['--import', TSX, MAIN, ...argv], { stdio: ['ignore', 'pipe', 'pipe'] });
}

function ended(child: ChildProcess): Promise<{ code: number | null; err: string }> {
  let err = '';
  child.stderr!.on('data', (chunk) => (err += String(chunk)));
  return new Promise((resolve) => child.on('close', (code) => resolve({ code, err })));
}

describe('the command as a process', () => {
  it('leaves with the documented code and one sentence', async () => {
    const missing = start('analyse', join(root, 'nope.wav'));
    expect(await ended(missing)).toEqual({
      code: 3,
      err: `${join(root, 'nope.wav')} does not exist: check its name and folder.\n`,
    });
  });

  it('says nothing when whoever reads its output has heard enough', async () => {
    const child = start('--help');
    child.stdout!.destroy();
    expect(await ended(child)).toEqual({ code: 0, err: '' });
  });

  it('stops in good order at Ctrl-C, with several tracks at work', async () => {
    const child = start('analyse', root, '--no-cache', '--jobs', '2');
    const end = ended(child);
    setTimeout(() => child.kill('SIGINT'), 3000);
    const { code, err } = await end;
    expect(err).toMatch(/^Stopped[^\n]*\n$/);
    expect(code).toBe(130);
  });
});
