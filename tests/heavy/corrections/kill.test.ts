import { fork } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { readCorrections } from '../../../src/track/index.js';
import { parseCorrections } from '../../../src/track/index.js';
import { readFile } from 'node:fs/promises';

const KILLS = 60;
const DIGEST = 'ab'.repeat(32);

it(`loses no word that was kept when it is killed ${KILLS} times`, { timeout: 900_000 }, async () => {
  for (let kill = 0; kill < KILLS; kill++) {
    const folder = mkdtempSync(join(tmpdir(), 'barwise-kill-'));
    const last = await killedRun(folder, (kill % 7) + 1, (kill * 1.7) % 9);
    const kept = await readCorrections(DIGEST, folder);
    expect(kept.length).toBeGreaterThanOrEqual(last + 1);
    kept.forEach((c, i) => expect(c).toMatchObject({ kind: 'beat', time: i / 100 }));
    for (const name of readdirSync(folder).filter((n) => n.endsWith('.previous.yaml')))
      expect(parseCorrections(await readFile(join(folder, name), 'utf8'), name).corrections.length).toBeGreaterThan(0);
    rmSync(folder, { recursive: true, force: true });
  }
});

/** Kills the child some milliseconds after so many words were kept; gives the last that it named as kept. */
function killedRun(folder: string, words: number, afterMs: number): Promise<number> {
  const child = fork(join(fileURLToPath(import.meta.url), '..', 'kill-child.ts'), [folder, DIGEST], {
    execArgv: ['--import', 'tsx'],
  });
  let last = -1;
  return new Promise((resolve) => {
    child.on('message', (message) => {
      last = message as number;
      if (last === words - 1) setTimeout(() => child.kill('SIGKILL'), afterMs);
    });
    child.on('close', () => resolve(last));
  });
}
