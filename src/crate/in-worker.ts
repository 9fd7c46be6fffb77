import type { MessagePort } from 'node:worker_threads';
import { analyseTrack, type AnalyseOptions, type TrackAnalysis } from '../track/index.js';
import type { Progress } from '../units/index.js';
import { asFailure, type CrateFailure } from './failure.js';

/** What a worker is asked to do; everything in it can be sent between threads. */
export interface WorkerTask {
  readonly file: string;
  readonly options: Pick<AnalyseOptions, 'constraints' | 'decoder' | 'corrections' | 'correctionsFolder'>;
  /** Carries progress to the caller and the word `abort` from it. */
  readonly port: MessagePort;
}

export type WorkerAnswer = { readonly analysis: TrackAnalysis } | { readonly failure: CrateFailure };

/** Analyses one file in this thread. Errors come back as data, because only plain ones survive the way. */
export async function analyseInWorker({ file, options, port }: WorkerTask): Promise<WorkerAnswer> {
  const controller = new AbortController();
  port.on('message', () => controller.abort());
  try {
    const onProgress = (progress: Progress) => port.postMessage(progress);
    return { analysis: await analyseTrack(file, { ...options, onProgress, signal: controller.signal }) };
  } catch (error) {
    return { failure: asFailure(file, error) };
  } finally {
    port.close();
  }
}
