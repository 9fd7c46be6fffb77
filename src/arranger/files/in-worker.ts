import { receiveMessageOnPort } from 'node:worker_threads';
import type { MessagePort } from 'node:worker_threads';
import { BarwiseError } from '../../units/index.js';
import type { ErrorCode, Progress } from '../../units/index.js';
import type { DemoTrack } from '../demo-track.js';
import { writeDemoFile } from './demo-file.js';
import type { DemoFile } from './demo-file.js';

/** What a worker is asked to write. */
export interface WriteTask {
  readonly folder: string;
  readonly track: DemoTrack;
  /** Carries progress to the caller and a message to stop from it. */
  readonly port: MessagePort;
}

/** Errors come back as data, because their class does not survive the way between threads. */
export type WriteAnswer =
  | { readonly file: DemoFile }
  | { readonly failure: { readonly code: ErrorCode; readonly message: string; readonly file: string | undefined } };

const SMALLEST_STEP = 0.01;

/** Writes one track in this thread. */
export async function writeInWorker({ folder, track, port }: WriteTask): Promise<WriteAnswer> {
  const controller = new AbortController();
  let told = -1;
  const onProgress = (progress: Progress): void => {
    // Rendering never waits, so a message to stop is looked for here.
    if (receiveMessageOnPort(port)) controller.abort();
    if (progress.done - told < SMALLEST_STEP) return;
    told = progress.done;
    port.postMessage(progress);
  };
  try {
    return { file: await writeDemoFile(folder, track, { onProgress, signal: controller.signal }) };
  } catch (error) {
    if (!(error instanceof BarwiseError)) throw error;
    return { failure: { code: error.code, message: error.message, file: error.file } };
  } finally {
    port.close();
  }
}
