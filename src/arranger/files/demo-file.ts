import { createHash } from 'node:crypto';
import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { writeAtomically, writeFinished } from '../../audio/index.js';
import type { RunOptions } from '../../units/index.js';
import type { DemoTrack } from '../demo-track.js';
import { renderArrangement } from '../render.js';
import { encodeAudio } from './encode.js';
import { writeTags } from './tags.js';

/** Raise it when the same arrangement sounds different or its truth is written differently. */
export const ARRANGER_VERSION = 5;

/** A file of the demo crate and the truth beside it. */
export interface DemoFile {
  readonly track: DemoTrack;
  readonly file: string;
  readonly truthFile: string;
  /** Whether it was made now; `false` when it was there and up to date. */
  readonly written: boolean;
}

/** Names the state of a demo file: the track with everything that goes into it, and the version of the arranger. */
export function stampOf(track: DemoTrack): string {
  return createHash('sha256')
    .update(JSON.stringify([ARRANGER_VERSION, track]))
    .digest('hex');
}

/** Where a track's files go. */
export function demoPaths(folder: string, track: DemoTrack): { file: string; truthFile: string } {
  return {
    file: join(folder, `${track.name}.${track.format}`),
    truthFile: join(folder, `${track.name}.truth.json`),
  };
}

/** Whether both files are there and were made from this very track. The truth is written last and carries the stamp. */
export async function isUpToDate(folder: string, track: DemoTrack): Promise<boolean> {
  const { file, truthFile } = demoPaths(folder, track);
  try {
    const truth = JSON.parse(await readFile(truthFile, 'utf8')) as { stamp?: unknown };
    return truth.stamp === stampOf(track) && (await stat(file)).size > 0;
  } catch {
    return false;
  }
}

/**
 * Renders one track and writes its audio file with tags and, beside it, `NAME.truth.json`: the ArrangementTruth and the
 * stamp. Times in it are those of the signal before encoding.
 * @throws BarwiseError `cannot-write`, `aborted`, and those of `renderArrangement`
 */
export async function writeDemoFile(folder: string, track: DemoTrack, options: RunOptions = {}): Promise<DemoFile> {
  const { signal, onProgress } = options;
  const { file, truthFile } = demoPaths(folder, track);
  const part = (from: number, share: number): RunOptions => ({
    signal,
    onProgress: ({ stage, done }) => onProgress?.({ stage, done: from + share * done }),
  });
  const { left, right, truth } = renderArrangement(track.arrangement, part(0, 0.5));
  const parts = await encodeAudio(track.format, { left, right }, part(0.5, 0.5));
  await writeFinished(file, parts, (passing) => writeTags(passing, track));
  const text = JSON.stringify({ ...truth, stamp: stampOf(track) });
  await writeAtomically(truthFile, [Buffer.from(`${text}\n`)]);
  return { track, file, truthFile, written: true };
}
