import type { AnalyseOptions, TrackAnalysis } from '../track/index.js';
import { throwIfAborted, type RunOptions } from '../units/index.js';
import { cacheFile, readCached, writeCached } from './cache.js';
import { asFailure, type CrateFailure } from './failure.js';
import { findTracks } from './find.js';
import { openSteps, type CrateSteps } from './steps.js';
import { defaultWorkers } from './workers.js';

/** How to analyse a crate. */
export interface CrateOptions extends RunOptions {
  readonly constraints?: AnalyseOptions['constraints'];
  readonly decoder?: AnalyseOptions['decoder'];
  /** Whether finished analyses are kept and taken from the cache; default true. */
  readonly cache?: boolean;
  /** Where to keep them; default: a folder `.barwise` beside each file. */
  readonly cacheFolder?: string;
  /** How many tracks at once; default one a core, fewer where memory is short. */
  readonly workers?: number;
  /** Called as each track is done, in the order in which they finish. */
  readonly onTrack?: (done: TrackDone) => void;
}

/** One track is done: how, and how many of how many that makes. */
export interface TrackDone {
  readonly file: string;
  readonly outcome: 'analysed' | 'cached' | 'failed';
  readonly done: number;
  readonly total: number;
}

/** The tracks of a crate in the order of their files, and what could not be analysed. */
export interface CrateAnalysis {
  readonly tracks: TrackAnalysis[];
  readonly failures: CrateFailure[];
}

/**
 * Analyses files and folders of files, several at once, and keeps what is done in a cache. A file that cannot be
 * analysed becomes a failure and stops none of the others; a crate with no track at all has only failures.
 * Throws BarwiseError `aborted` when `signal` says so; what was finished by then stays in the cache.
 */
export async function analyseCrate(paths: readonly string[], options: CrateOptions = {}): Promise<CrateAnalysis> {
  const { files, failures } = await findTracks(paths);
  const workers = Math.min(options.workers ?? defaultWorkers(), Math.max(files.length, 1));
  const steps = openSteps(workers);
  try {
    return await analyseFiles(files, failures, { ...options, workers }, steps);
  } finally {
    await steps.close();
  }
}

/** The same for a list of files and given steps. */
export async function analyseFiles(
  files: readonly string[],
  failures: readonly CrateFailure[],
  options: CrateOptions,
  steps: CrateSteps,
): Promise<CrateAnalysis> {
  const shares = new Float64Array(files.length);
  const results = new Array<TrackAnalysis | CrateFailure>(files.length);
  let [next, done] = [0, 0];
  const report = (stage: string) =>
    options.onProgress?.({ stage, done: shares.reduce((sum, s) => sum + s, 0) / Math.max(files.length, 1) });

  const one = async (i: number) => {
    const file = files[i];
    const onProgress: AnalyseOptions['onProgress'] = (progress) => {
      shares[i] = progress.done;
      report(progress.stage);
    };
    let outcome: TrackDone['outcome'] = 'failed';
    try {
      const { analysis, cached } = await analyseOne(file, { ...options, onProgress }, steps);
      results[i] = analysis;
      outcome = cached ? 'cached' : 'analysed';
    } catch (error) {
      throwIfAborted(options.signal);
      results[i] = asFailure(file, error);
    }
    shares[i] = 1;
    options.onTrack?.({ file, outcome, done: ++done, total: files.length });
    report('analyse');
  };
  const loop = async () => {
    while (next < files.length) {
      throwIfAborted(options.signal);
      await one(next++);
    }
  };
  await everyOne(Array.from({ length: options.workers ?? 1 }, loop));
  return {
    tracks: results.filter((r): r is TrackAnalysis => 'source' in r),
    failures: [...failures, ...results.filter((r): r is CrateFailure => 'code' in r)],
  };
}

/** Waits for all even when one fails, so that nothing goes on working after the call has ended; then fails. */
async function everyOne(work: readonly Promise<void>[]): Promise<void> {
  const settled = await Promise.allSettled(work);
  for (const s of settled) if (s.status === 'rejected') throw s.reason;
}

async function analyseOne(file: string, options: CrateOptions, steps: CrateSteps) {
  const { constraints, decoder, onProgress, signal } = options;
  const how: AnalyseOptions = {
    ...(constraints ? { constraints } : {}),
    ...(decoder ? { decoder } : {}),
    onProgress,
    signal,
  };
  if (options.cache === false) return { analysis: await steps.analyse(file, how), cached: false };
  const identity = steps.identity(how);
  const info = await steps.inspect(file, how);
  const place = cacheFile(info, identity, options.cacheFolder);
  const kept = await readCached(place, info, identity);
  if (kept) return { analysis: kept, cached: true };
  const analysis = await steps.analyse(file, how);
  // A folder that cannot be written to (a disc, somebody else's share) only means that the next run takes as long.
  await writeCached(place, analysis).catch(() => undefined);
  return { analysis, cached: false };
}
