import { writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openAudio } from '../../../src/audio/index.js';
import { BarwiseError, randomNumbers } from '../../../src/units/index.js';
import { mutate } from './mutate.js';
import { seeds } from './seeds.js';

/** What the child is asked for: damaged files number `from` to `to`, and whether to read the samples of each. */
export interface FuzzTask {
  readonly from: number;
  readonly to: number;
  /** `open`: headers, index and tags, and the samples where no decoder is needed; `read`: all samples of all. */
  readonly mode: 'open' | 'read';
}

export interface FuzzReport {
  readonly cases: number;
  /** How many ended in which way: `read`, or the code of the error. */
  readonly ends: Record<string, number>;
  /** What should not have happened, with the number of the case. */
  readonly faults: string[];
  readonly slowestMs: number;
  readonly peakMemory: number;
}

/**
 * A file of less than a second that is still being worked on after this long hangs, if it does so again, and if the whole
 * file does not need much of that, too, because the machine has other things to do.
 */
const LIMIT_MS = { open: 2000, read: 10_000 };
const TIMES_WHOLE = 10;

process.once('message', (task: FuzzTask) => {
  void fuzz(task).then((report) => process.send?.(report, () => process.disconnect()));
});

async function fuzz({ from, to, mode }: FuzzTask): Promise<FuzzReport> {
  const all = await seeds();
  const bytes = all.map((seed) => seed.bytes);
  const file = join(tmpdir(), `barwise-fuzz-${process.pid}.bin`);
  const ends: Record<string, number> = {};
  const faults: string[] = [];
  let [slowestMs, peakMemory] = [0, 0];
  for (let i = from; i < to; i++) {
    const seed = all[i % all.length];
    writeFileSync(file, mutate(seed.bytes, randomNumbers(i), bytes));
    process.send?.(i);
    const read = mode === 'read' || seed.plain;
    const { end, took } = await timed(file, i, read);
    slowestMs = Math.max(slowestMs, took);
    peakMemory = Math.max(peakMemory, process.memoryUsage.rss());
    if (end.startsWith('FAULT')) faults.push(`${i} (${seed.name}): ${end}`);
    if (took > LIMIT_MS[mode]) {
      const again = await timed(file, i, read);
      writeFileSync(file, seed.bytes);
      const whole = await timed(file, i, read);
      if (again.took > Math.max(LIMIT_MS[mode], TIMES_WHOLE * whole.took))
        faults.push(`${i} (${seed.name}): took ${[took, again.took].map(Math.round).join(' and ')} ms`);
    }
    ends[end.split(' ')[0]] = (ends[end.split(' ')[0]] ?? 0) + 1;
  }
  return { cases: to - from, ends, faults, slowestMs, peakMemory };
}

async function timed(file: string, i: number, read: boolean): Promise<{ end: string; took: number }> {
  const start = performance.now();
  const end = await attempt(file, i, read);
  return { end, took: performance.now() - start };
}

async function attempt(file: string, i: number, read: boolean): Promise<string> {
  try {
    const { info, source } = await openAudio(file, { decoder: i % 2 ? 'native' : 'wasm' });
    if (!read) return 'opened';
    let frames = 0;
    for await (const block of source.blocks()) {
      frames += block[0].length;
      for (const samples of block) {
        if (samples.length !== block[0].length) return 'FAULT channels of unequal length';
        if (!samples.every(Number.isFinite)) return 'FAULT samples that are no numbers';
      }
    }
    const promised = Math.round(info.durationSeconds * info.sampleRate);
    return frames === promised ? 'read' : `FAULT ${frames} frames where ${promised} were promised`;
  } catch (error) {
    if (!(error instanceof BarwiseError)) return `FAULT ${String((error as Error).stack).slice(0, 300)}`;
    if (/\n/.test(error.message) || !error.message.includes(file)) return `FAULT not a sentence: ${error.message}`;
    return error.code;
  }
}
