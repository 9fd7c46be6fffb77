import { dirname, join } from 'node:path';
import type { AnalyseOptions, TrackAnalysis } from '../track/index.js';
import { throwIfAborted, type Progress, type RunOptions } from '../units/index.js';
import { CACHE_FOLDER } from './cache.js';
import { isDue, openCatalogue, type Catalogue } from './catalogue.js';
import { findDuplicates } from './duplicates.js';
import { openElsewhere, type Elsewhere } from './elsewhere.js';
import { asFailure, type CrateFailure } from './failure.js';
import { findTracks, type FoundTracks } from './find.js';
import { analysisOf, outlineOfTrack, withoutCache, type OneTrack, type TrackOptions } from './one-track.js';
import { outlineOf, type TrackOutline } from './outline.js';
import { failuresOfShard, type Shard } from './shard.js';
import { openSteps, type CrateSteps } from './steps.js';
import { defaultWorkers } from './workers.js';

/** How to analyse a crate. @public */
export interface CrateOptions extends RunOptions {
  readonly constraints?: AnalyseOptions['constraints'];
  readonly decoder?: AnalyseOptions['decoder'];
  /** Whether what somebody has said about the tracks is honoured; default true. */
  readonly corrections?: boolean;
  /** Where corrections are kept; default: the person's own folder. */
  readonly correctionsFolder?: string;
  /** Whether finished analyses are kept and taken from the cache; default true. */
  readonly cache?: boolean;
  /** Where to keep them; default: a folder `.barwise` beside each file. */
  readonly cacheFolder?: string;
  /**
   * Where else to look for the analysis of a track that was moved. By itself a crate looks into every `.barwise` of the
   * folders it is searched for in; with `cacheFolder` into that one only.
   */
  readonly lookIn?: readonly string[];
  /** Only this part of the crate, shared out by the digest of the audio; files that do not open by their bytes. */
  readonly shard?: Shard;
  /** How many tracks at once; default one a core, fewer where memory is short. */
  readonly workers?: number;
  /** Called as each track is done, in the order in which they finish. */
  readonly onTrack?: (done: TrackDone) => void;
}

/** One track is done: how, and how many of how many that makes. @public */
export interface TrackDone {
  readonly file: string;
  /** `left`: another shard's. */
  readonly outcome: 'analysed' | 'cached' | 'failed' | 'left';
  readonly done: number;
  readonly total: number;
}

/** Tracks in the order of their files, and what could not be analysed. @public */
export interface CrateResult<T> {
  readonly tracks: T[];
  readonly failures: CrateFailure[];
  /** Sentences on what was passed over on purpose. */
  readonly notices: string[];
  /** Groups of files that hold the same audio. */
  readonly duplicates: string[][];
}

/** A crate with everything that is known of each track. @public */
export type CrateAnalysis = CrateResult<TrackAnalysis>;

/** A crate as a list. @public */
export type CrateListing = CrateResult<TrackOutline>;

/**
 * Analyses files and folders of files, several at once, and keeps what is done in a cache. A file that cannot be
 * analysed becomes a failure and stops none of the others; a crate with no track at all has only failures.
 * Throws BarwiseError `aborted` when `signal` says so; what was finished by then stays in the cache.
 * @public
 */
export async function analyseCrate(paths: readonly string[], options: CrateOptions = {}): Promise<CrateAnalysis> {
  return withSteps(paths, options, analyseFiles);
}

/**
 * The same, but gives only the outline of each track: files that have not changed since are not opened, so that a
 * crate that is known already is listed at once.
 * @public
 */
export async function listCrate(paths: readonly string[], options: CrateOptions = {}): Promise<CrateListing> {
  return withSteps(paths, options, listFiles);
}

type Work<T> = (found: FoundTracks, options: CrateOptions, steps: CrateSteps) => Promise<CrateResult<T>>;

async function withSteps<T>(paths: readonly string[], options: CrateOptions, work: Work<T>): Promise<CrateResult<T>> {
  const all = await findTracks(paths);
  const found = options.shard ? { ...all, failures: await failuresOfShard(all.failures, paths, options.shard) } : all;
  const workers = Math.min(options.workers ?? defaultWorkers(), Math.max(found.files.length, 1));
  const steps = openSteps(workers);
  try {
    return await work(found, { ...options, workers }, steps);
  } finally {
    await steps.close();
  }
}

/** Analyses files that were found, by given steps. */
export function analyseFiles(found: FoundTracks, options: CrateOptions, steps: CrateSteps): Promise<CrateAnalysis> {
  if (options.cache === false) return eachTrack(found, options, withoutCache(steps));
  return catalogued(options, (catalogue) =>
    eachTrack(found, options, analysisOf(steps, catalogue, moved(found, options)), catalogue),
  );
}

/** Lists files that were found, by given steps. */
export async function listFiles(found: FoundTracks, options: CrateOptions, steps: CrateSteps): Promise<CrateListing> {
  if (options.cache !== false)
    return catalogued(options, (catalogue) =>
      eachTrack(found, options, outlineOfTrack(steps, catalogue, moved(found, options)), catalogue),
    );
  const crate = await eachTrack(found, options, withoutCache(steps));
  return { ...crate, tracks: crate.tracks.map(outlineOf) };
}

function moved({ cacheFolders = [] }: FoundTracks, { cacheFolder, lookIn = [] }: CrateOptions): Elsewhere {
  return openElsewhere(cacheFolder === undefined ? [...cacheFolders, ...lookIn] : []);
}

/** Does work with a catalogue, and writes it down whatever becomes of the work. */
async function catalogued<T>(
  { cacheFolder }: CrateOptions,
  work: (catalogue: Catalogue) => Promise<CrateResult<T>>,
): Promise<CrateResult<T>> {
  const catalogue = openCatalogue((file) => cacheFolder ?? join(dirname(file), CACHE_FOLDER));
  try {
    return await work(catalogue);
  } finally {
    await catalogue.save();
  }
}

async function eachTrack<T extends Pick<TrackOutline, 'source'>>(
  { files, failures, notices }: FoundTracks,
  options: CrateOptions,
  analyse: OneTrack<T>,
  catalogue?: Catalogue,
): Promise<CrateResult<T>> {
  const said = new Set(notices);
  const shares = new Float64Array(files.length);
  const results = new Array<T | CrateFailure | null>(files.length).fill(null);
  let [next, done, saved] = [0, 0, 0];
  let sum = 0;
  const advance = (i: number, share: number, stage: string) => {
    sum += share - shares[i];
    shares[i] = share;
    options.onProgress?.({ stage, done: Math.min(sum / files.length, 1) });
  };

  const one = async (i: number) => {
    const file = files[i];
    let outcome: TrackDone['outcome'];
    try {
      const made = await analyse(file, {
        ...trackOptions(options, (p) => advance(i, p.done, p.stage)),
        onNotice: (sentence) => said.add(sentence),
      });
      if (made !== 'other-shard') results[i] = made.result;
      outcome = made === 'other-shard' ? 'left' : made.cached ? 'cached' : 'analysed';
    } catch (error) {
      throwIfAborted(options.signal);
      results[i] = asFailure(file, error);
      outcome = 'failed';
    }
    options.onTrack?.({ file, outcome, done: ++done, total: files.length });
    advance(i, 1, 'analyse');
    if (!isDue(done, saved)) return;
    saved = done;
    await catalogue?.save();
  };
  const loop = async () => {
    while (next < files.length) {
      throwIfAborted(options.signal);
      await one(next++);
    }
  };
  await everyOne(Array.from({ length: options.workers ?? 1 }, loop));
  const tracks = results.filter((r): r is T => r !== null && 'source' in r);
  return {
    tracks,
    failures: [...failures, ...results.filter((r): r is CrateFailure => r !== null && 'code' in r)],
    notices: [...said],
    duplicates: findDuplicates(tracks),
  };
}

function trackOptions(options: CrateOptions, onProgress: (progress: Progress) => void): TrackOptions {
  const { constraints, decoder, signal, cacheFolder, shard, corrections, correctionsFolder } = options;
  return {
    ...(constraints ? { constraints } : {}),
    ...(decoder ? { decoder } : {}),
    ...(corrections === false ? { corrections: [] } : {}),
    correctionsFolder,
    cacheFolder,
    shard,
    onProgress,
    signal,
  };
}

/** Waits for all even when one fails, so that nothing goes on working after the call has ended; then fails. */
async function everyOne(work: readonly Promise<void>[]): Promise<void> {
  const settled = await Promise.allSettled(work);
  for (const s of settled) if (s.status === 'rejected') throw s.reason;
}
