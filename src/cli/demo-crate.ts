import { availableParallelism } from 'node:os';
import { Piscina } from 'piscina';
import { demoCrate } from '../arranger/index.js';
import { BarwiseError } from '../units/index.js';

/** A track of the demo crate is ready. */
export interface DemoTrackReady {
  readonly title: string;
  readonly file: string;
  /** False when it was there already. */
  readonly written: boolean;
  readonly done: number;
  readonly total: number;
}

/** Makes the demo crate, several tracks at once; what is there and up to date stays. Gives the files in order. */
export async function makeDemoCrate(
  folder: string,
  options: { readonly signal: AbortSignal; readonly onTrack: (ready: DemoTrackReady) => void },
): Promise<string[]> {
  const tracks = demoCrate();
  const pool = new Piscina<unknown, { file: string; written: boolean }>({
    filename: new URL('./demo-worker.mjs', import.meta.url).href,
    maxThreads: Math.min(availableParallelism(), tracks.length),
    execArgv: [],
  });
  let done = 0;
  const make = async (track: (typeof tracks)[number]): Promise<string> => {
    const { file, written } = await pool.run({ folder, track }, { signal: options.signal });
    options.onTrack({ title: track.title, file, written, done: ++done, total: tracks.length });
    return file;
  };
  try {
    return await Promise.all(tracks.map(make));
  } catch (error) {
    if (options.signal.aborted) throw new BarwiseError('aborted', 'Stopped before the demo crate was done.');
    throw error;
  } finally {
    await pool.destroy();
  }
}
