import { mkdir } from 'node:fs/promises';
import { BarwiseError, throwIfAborted } from '../../units/index.js';
import type { RunOptions } from '../../units/index.js';
import { demoCrate } from '../demo-crate.js';
import type { DemoTrack } from '../demo-track.js';
import { demoPaths, isUpToDate, writeDemoFile } from './demo-file.js';
import type { DemoFile } from './demo-file.js';
import { startThreads, usualThreads } from './threads.js';

export interface WriteCrateOptions extends RunOptions {
  /** Called with each file as it becomes ready, also with those that were there already. */
  readonly onFile?: ((file: DemoFile) => void) | undefined;
  /** The tracks to write; the whole demo crate when left out. */
  readonly tracks?: readonly DemoTrack[];
  /** How many tracks are written at once, each in a thread of its own; 1 works in this thread. One a core when left out. */
  readonly threads?: number;
}

async function makeFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true });
  } catch (cause) {
    const message = `Cannot make the folder ${folder}: choose one that may be written to.`;
    throw new BarwiseError('cannot-write', message, { file: folder, cause });
  }
}

/**
 * Writes the demo crate into a folder, which is made when it is missing: nine stereo files with tags, in WAV, FLAC, MP3
 * and Ogg Vorbis, each with `NAME.truth.json` beside it. What is there and up to date is left alone.
 * @throws BarwiseError `cannot-write`, `aborted`
 */
export async function writeDemoCrate(folder: string, options: WriteCrateOptions = {}): Promise<DemoFile[]> {
  const { signal, onProgress, onFile } = options;
  const tracks = options.tracks ?? demoCrate();
  await makeFolder(folder);
  const current = await Promise.all(tracks.map((track) => isUpToDate(folder, track)));
  const missing = current.filter((there) => !there).length;
  const count = Math.min(options.threads ?? usualThreads(), missing);
  const threads = count > 1 ? startThreads(count) : null;
  const done = tracks.map(() => 0);
  const tell = (i: number, share: number): void => {
    done[i] = share;
    onProgress?.({ stage: tracks[i].title, done: done.reduce((sum, value) => sum + value, 0) / tracks.length });
  };
  const one = async (track: DemoTrack, i: number): Promise<DemoFile> => {
    throwIfAborted(signal);
    const run: RunOptions = { signal, onProgress: (progress) => tell(i, progress.done) };
    const file = current[i]
      ? { track, ...demoPaths(folder, track), written: false }
      : await (threads ? threads.write(folder, track, run) : writeDemoFile(folder, track, run));
    tell(i, 1);
    onFile?.(file);
    return file;
  };
  try {
    if (threads) return await settled(tracks.map(one));
    const files: DemoFile[] = [];
    for (const [i, track] of tracks.entries()) files.push(await one(track, i));
    return files;
  } finally {
    await threads?.close();
  }
}

/** Waits for all, then throws the first error there was: no thread may still be at work when the caller goes on. */
async function settled<T>(promises: readonly Promise<T>[]): Promise<T[]> {
  const results = await Promise.allSettled(promises);
  return results.map((result) => {
    if (result.status === 'rejected') throw result.reason;
    return result.value;
  });
}
