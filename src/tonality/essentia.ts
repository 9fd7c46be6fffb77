import { Worker } from 'node:worker_threads';
import type { Hertz } from '../units/index.js';

/** What essentia.js hears in some seconds of music. */
export interface HeardKey {
  /** Note name, flats as essentia.js spells them. */
  readonly key: string;
  readonly scale: 'major' | 'minor';
  /** Correlation with the profile of that key, up to 1. */
  readonly strength: number;
}

/** What essentia.js finds as beats. */
export interface HeardBeats {
  readonly ticks: Float32Array;
  readonly bpm: number;
}

/** Profiles of essentia's KeyExtractor that suit dance music: Faraldo et al., "Key estimation in EDM", ECIR 2016. */
export type KeyProfile = 'edma' | 'edmm' | 'bgate' | 'braw' | 'krumhansl' | 'temperley' | 'shaath';

/** Methods of RhythmExtractor2013: `multifeature` is the more exact, `degara` several times faster. */
export type BeatMethod = 'multifeature' | 'degara';

/** essentia.js in a thread of its own, for what it does with whole music: the analysis itself asks `key-library.ts`. */
export interface EssentiaThread {
  /** @param lowest frequency in hertz below which nothing is heard */
  keyOfMusic(samples: Float32Array, profile: KeyProfile, lowest: Hertz): Promise<HeardKey>;
  beats(samples: Float32Array, method: BeatMethod): Promise<HeardBeats>;
  /** Ends the thread; what is still waiting rejects. */
  close(): Promise<void>;
}

interface Waiting {
  readonly resolve: (value: never) => void;
  readonly reject: (error: Error) => void;
}

/**
 * Starts essentia.js in a worker thread. Samples are mono at 44.1 kHz and are handed over: the caller's array is empty
 * afterwards. Every promise rejects with an Error when the library gives up or the thread dies.
 */
export function startEssentia(): EssentiaThread {
  const worker = new Worker(new URL('./essentia.worker.mjs', import.meta.url), { execArgv: [] });
  const waiting = new Map<number, Waiting>();
  let next = 0;
  let dead: Error | null = null;

  worker.on('message', ({ id, value, error }: { id: number; value: never; error?: string }) => {
    const entry = waiting.get(id);
    waiting.delete(id);
    if (error === undefined) entry?.resolve(value);
    else entry?.reject(new Error(error));
  });
  worker.on('error', (error) => fail(error instanceof Error ? error : new Error(String(error))));
  worker.on('exit', () => fail(new Error('The thread of essentia.js has ended.')));
  worker.unref();

  function fail(error: Error): void {
    dead ??= error;
    for (const entry of waiting.values()) entry.reject(dead);
    waiting.clear();
    worker.unref();
  }

  function ask<T>(task: 'keyOfMusic' | 'beats', samples: Float32Array, options: object): Promise<T> {
    if (dead) return Promise.reject(dead);
    return new Promise<T>((resolve, reject) => {
      const id = next++;
      waiting.set(id, { resolve, reject });
      worker.ref();
      worker.postMessage({ id, task, samples, options }, [samples.buffer as ArrayBuffer]);
    }).finally(() => {
      if (waiting.size === 0) worker.unref();
    });
  }

  return {
    keyOfMusic: (samples, profile, lowest) => ask<HeardKey>('keyOfMusic', samples, { profile, lowest }),
    beats: (samples, method) => ask<HeardBeats>('beats', samples, { method }),
    async close() {
      dead ??= new Error('The thread of essentia.js was closed.');
      await worker.terminate();
    },
  };
}
