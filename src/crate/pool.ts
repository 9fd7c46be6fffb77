import { MessageChannel } from 'node:worker_threads';
import { Piscina } from 'piscina';
import { BarwiseError, type RunOptions } from '../units/index.js';
import type { WorkerAnswer, WorkerTask } from './in-worker.js';

/** How long the workers get to stop by themselves (and to end their decoders) before they are stopped. */
const GRACE_MS = 3000;

/** Several threads that analyse one file each. */
export interface AnalysisPool {
  run(file: string, options: WorkerTask['options'], run: RunOptions): Promise<WorkerAnswer>;
  close(): Promise<void>;
}

/** A pool of up to `workers` threads, which start when there is work for them. */
export function createPool(workers: number): AnalysisPool {
  const pool = new Piscina({
    filename: new URL('./worker.mjs', import.meta.url).href,
    minThreads: 1,
    maxThreads: workers,
    // Loading the program takes longer than the gap between two tracks.
    idleTimeout: 30_000,
    // The loader is registered by the worker itself; flags of a test runner would only get in its way.
    execArgv: [],
  });
  return {
    async run(file, options, { onProgress, signal }) {
      const { port1, port2 } = new MessageChannel();
      const hard = new AbortController();
      let timer: NodeJS.Timeout | undefined;
      const stop = () => {
        port1.postMessage('abort');
        timer = setTimeout(() => hard.abort(), GRACE_MS);
      };
      port1.on('message', (progress) => onProgress?.(progress as never));
      signal?.addEventListener('abort', stop, { once: true });
      if (signal?.aborted) stop();
      try {
        const task: WorkerTask = { file, options: plain(options), port: port2 };
        return (await pool.run(task, { transferList: [port2], signal: hard.signal })) as WorkerAnswer;
      } catch (error) {
        if (signal?.aborted) throw new BarwiseError('aborted', 'Stopped before the work was done.', { cause: error });
        throw error;
      } finally {
        clearTimeout(timer);
        signal?.removeEventListener('abort', stop);
        port1.close();
      }
    },
    close: () => pool.destroy(),
  };
}

function plain(options: WorkerTask['options']): WorkerTask['options'] {
  const { constraints, decoder, corrections, correctionsFolder } = options;
  return {
    ...(constraints ? { constraints } : {}),
    ...(decoder ? { decoder } : {}),
    ...(corrections ? { corrections } : {}),
    ...(correctionsFolder === undefined ? {} : { correctionsFolder }),
  };
}
