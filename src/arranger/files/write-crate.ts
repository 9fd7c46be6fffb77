import { mkdir } from 'node:fs/promises';
import { BarwiseError, throwIfAborted } from '../../units/index.js';
import type { RunOptions } from '../../units/index.js';
import { demoCrate } from '../demo-crate.js';
import type { DemoTrack } from '../demo-track.js';
import { demoPaths, isUpToDate, writeDemoFile } from './demo-file.js';
import type { DemoFile } from './demo-file.js';

export interface WriteCrateOptions extends RunOptions {
  /** Called with each file as it becomes ready, also with those that were there already. */
  readonly onFile?: ((file: DemoFile) => void) | undefined;
  /** The tracks to write; the whole demo crate when left out. */
  readonly tracks?: readonly DemoTrack[];
}

/**
 * Writes the demo crate into a folder, which is made when it is missing: nine stereo files with tags, in WAV, FLAC, MP3
 * and Ogg Vorbis, each with `NAME.truth.json` beside it. What is there and up to date is left alone.
 * @throws BarwiseError `cannot-write`, `aborted`
 */
export async function writeDemoCrate(folder: string, options: WriteCrateOptions = {}): Promise<DemoFile[]> {
  const tracks = options.tracks ?? demoCrate();
  try {
    await mkdir(folder, { recursive: true });
  } catch (cause) {
    throw new BarwiseError('cannot-write', `Cannot make the folder ${folder}: choose one that may be written to.`, {
      file: folder,
      cause,
    });
  }
  const files: DemoFile[] = [];
  for (const [i, track] of tracks.entries()) {
    throwIfAborted(options.signal);
    const onProgress = ({ done }: { done: number }): void =>
      options.onProgress?.({ stage: track.title, done: (i + done) / tracks.length });
    const file = (await isUpToDate(folder, track))
      ? { track, ...demoPaths(folder, track), written: false }
      : await writeDemoFile(folder, track, { signal: options.signal, onProgress });
    onProgress({ done: 1 });
    options.onFile?.(file);
    files.push(file);
  }
  return files;
}
