import { execFile, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { BenchTask, BenchTimes } from './bench-child.js';
import { watchMemory, type PeakMemory } from './process-tree.js';

export type Run = BenchTimes & PeakMemory;

/**
 * One task in a fresh process.
 * @param cores how many it may use: 1 binds it and its children to the first, by taskset (Linux)
 */
export function runOnce(task: BenchTask, cores: number): Promise<Run> {
  const [execPath, before] = cores === 1 ? ['taskset', ['-c', '0', process.execPath]] : [process.execPath, []];
  const child = fork(fileURLToPath(sibling('bench-child')), {
    execPath,
    execArgv: [...before, ...process.execArgv],
    stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
  });
  const memory = watchMemory(child.pid!);
  return new Promise((resolve, reject) => {
    child.once('message', (times) => resolve({ ...(times as BenchTimes), ...memory.stop() }));
    child.once('exit', (code) => {
      memory.stop();
      reject(new Error(`The measured process ended with ${code}.`));
    });
    child.send(task);
  });
}

/** The track of some minutes, made first where it is missing. */
export async function benchFile(minutes: number): Promise<string> {
  const args = [...process.execArgv, fileURLToPath(sibling('bench-file')), String(minutes)];
  const { stdout } = await promisify(execFile)(process.execPath, args);
  return stdout.trim();
}

/** Processor seconds that aubio's aubiotrack takes for a WAV file; `null` where it is not installed. */
export async function aubioTime(wav: string): Promise<number | null> {
  // bash's own clock of what its children used: user and system time.
  const script = 'TIMEFORMAT="%U %S"; time aubiotrack -i "$1" > /dev/null 2>&1';
  try {
    const { stderr } = await promisify(execFile)('bash', ['-c', `command -v aubiotrack > /dev/null && ${script}`, '-', wav]); // prettier-ignore
    const [user, system] = stderr.trim().split(/\s+/).map(Number);
    return user + system;
  } catch {
    return null;
  }
}

/** The middle of several runs. */
export function medianOf(runs: readonly Run[], value: (run: Run) => number): number {
  const sorted = runs.map(value).sort((a, b) => a - b);
  return sorted[sorted.length >> 1];
}

/** A file beside this one: `.ts` under tsx, `.js` after the build. */
function sibling(name: string): URL {
  return new URL(`./${name}${import.meta.url.endsWith('.ts') ? '.ts' : '.js'}`, import.meta.url);
}
