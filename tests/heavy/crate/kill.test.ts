import { fork } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { analyseFiles } from '../../../src/crate/crate.js';
import { trackAnalysisSchema } from '../../../src/track/index.js';
import { writingSteps } from './steps.js';

const KILLS = 200;
const FILES = 120;
/** The kill comes up to this long after the result that it waits for: in the midst of writing the next ones. */
const JITTER_MS = 4;

it(`loses nothing that was finished when it is killed ${KILLS} times`, { timeout: 900_000 }, async () => {
  let [finished, met] = [0, 0];
  for (let kill = 0; kill < KILLS; kill++) {
    const folder = crate();
    const done = await killedRun(folder, Math.floor(fraction(kill) * (FILES - 10)), fraction(kill * 7) * JITTER_MS);
    finished += done.length;
    if (done.length > 0 && done.length < FILES) met++;

    const cache = join(folder, '.barwise');
    for (const name of readdirSyncOrNone(cache).filter((n) => /^[0-9a-f]{64}\.json$/.test(n)))
      expect(trackAnalysisSchema.safeParse(JSON.parse(readFileSync(join(cache, name), 'utf8'))).success, name).toBe(
        true,
      );

    const again: string[] = [];
    const files = namesIn(folder);
    const { tracks, failures } = await analyseFiles({ files, failures: [], notices: [] }, {}, writingSteps(again));
    expect([tracks.length, failures.length]).toEqual([FILES, 0]);
    expect(again.filter((file) => done.includes(file))).toEqual([]);
    rmSync(folder, { recursive: true, force: true });
  }
  console.log(`${KILLS} kills, ${met} of them between the first and the last result; ${finished} results, none lost`);
  expect(met).toBeGreaterThan(KILLS / 2);
});

function crate(): string {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-kill-'));
  for (let i = 0; i < FILES; i++) {
    const digest = createHash('sha256').update(`${i}`).digest('hex');
    writeFileSync(join(folder, `${i}.wav`), digest);
  }
  return folder;
}

/** Runs the child on a folder, kills it after so many results and some time, and gives the files it named as done. */
function killedRun(folder: string, results: number, afterMs: number): Promise<string[]> {
  const here = fileURLToPath(import.meta.url);
  const child = fork(join(here, '..', 'kill-child.ts'), [folder], { execArgv: ['--import', 'tsx'] });
  const done: string[] = [];
  return new Promise((resolve) => {
    child.on('message', (message) => {
      if (message !== 'ready') done.push(message as string);
      if (done.length === results) setTimeout(() => child.kill('SIGKILL'), afterMs);
    });
    child.on('close', () => resolve(done));
  });
}

/** Spread over 0…1, never twice the same: the golden ratio's multiples. */
function fraction(i: number): number {
  return (i * 0.618_033_988_75) % 1;
}

function namesIn(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith('.wav'))
    .map((name) => join(folder, name));
}

function readdirSyncOrNone(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}
