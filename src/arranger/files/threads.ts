import { availableParallelism, totalmem } from 'node:os';
import { MessageChannel } from 'node:worker_threads';
import { Piscina } from 'piscina';
import { BarwiseError } from '../../units/index.js';
import type { RunOptions } from '../../units/index.js';
import type { DemoTrack } from '../demo-track.js';
import type { DemoFile } from './demo-file.js';
import type { WriteAnswer, WriteTask } from './in-worker.js';

/** What one thread may need for a track of five minutes. */
const BYTES_PER_THREAD = 500e6;

/** One thread a core, but never more than half the memory can hold. */
export function usualThreads(cores = availableParallelism(), memoryBytes = totalmem()): number {
  return Math.max(1, Math.min(cores, Math.floor(memoryBytes / 2 / BYTES_PER_THREAD)));
}

/** Threads that write a track each. */
export interface WritingThreads {
  write(folder: string, track: DemoTrack, options: RunOptions): Promise<DemoFile>;
  close(): Promise<void>;
}

export function startThreads(count: number): WritingThreads {
  const pool = new Piscina({
    filename: new URL('./worker.mjs', import.meta.url).href,
    minThreads: 1,
    maxThreads: count,
    execArgv: [],
  });
  return {
    async write(folder, track, { onProgress, signal }) {
      const { port1, port2 } = new MessageChannel();
      const stop = (): void => port1.postMessage('stop');
      port1.on('message', (progress) => onProgress?.(progress as never));
      signal?.addEventListener('abort', stop, { once: true });
      if (signal?.aborted) stop();
      try {
        const task: WriteTask = { folder, track, port: port2 };
        const answer = (await pool.run(task, { transferList: [port2] })) as WriteAnswer;
        if ('file' in answer) return answer.file;
        const { code, message, file } = answer.failure;
        throw new BarwiseError(code, message, file === undefined ? {} : { file });
      } finally {
        signal?.removeEventListener('abort', stop);
        port1.close();
      }
    },
    close: () => pool.close(),
  };
}
