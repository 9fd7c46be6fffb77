import { dirname } from 'node:path';
import { writeTrouble, type AudioFileInfo } from '../audio/index.js';
import { plainCorrection, readCorrections, type AnalyseOptions, type TrackAnalysis } from '../track/index.js';
import { cacheFile, readCached, writeCached, type Identity } from './cache.js';
import type { Catalogue } from './catalogue.js';
import type { Elsewhere } from './elsewhere.js';
import { outlineOf, type TrackOutline } from './outline.js';
import { failsInShard, inShard, type Shard } from './shard.js';
import type { CrateSteps } from './steps.js';

/** How one track of a crate is analysed. */
export interface TrackOptions extends AnalyseOptions {
  readonly cacheFolder?: string | undefined;
  readonly shard?: Shard | undefined;
  /** Called with a sentence about what did not work and costs nothing but time. */
  readonly onNotice?: (sentence: string) => void;
}

/** What came of a track, or that it is another machine's. */
export type TrackResult<T> = { readonly result: T; readonly cached: boolean } | 'other-shard';

/** How the crate's work on one file is done. */
export type OneTrack<T> = (file: string, options: TrackOptions) => Promise<TrackResult<T>>;

/** Analyses without looking for what was kept, and keeps nothing. */
export function withoutCache(steps: CrateSteps): OneTrack<TrackAnalysis> {
  return async (file, options) => {
    if (options.shard && (await inspectShare(steps, file, options)) === 'other-shard') return 'other-shard';
    return { result: await steps.analyse(file, options), cached: false };
  };
}

/** The whole analysis, taken from the cache where it is there. */
export function analysisOf(steps: CrateSteps, catalogue: Catalogue, elsewhere: Elsewhere): OneTrack<TrackAnalysis> {
  return async (file, given) => {
    const known = await catalogue.info(file);
    const info = known ?? (await inspectShare(steps, file, given));
    if (info === 'other-shard' || !isOurs(info, given)) return 'other-shard';
    const options = await withCorrections(info, given);
    const identity = steps.identity(options);
    const place = cacheFile(info, identity, options.cacheFolder);
    const kept = await readCached(place, info, identity);
    if (kept) {
      if (!known) await catalogue.remember(file, info, { identity, of: outlineOf(kept) });
      return { result: kept, cached: true };
    }
    const moved = await readMoved(await elsewhere.places(place), info, identity);
    const analysis = moved ?? (await steps.analyse(file, options));
    // A folder that cannot be written to (a disc, somebody else's share) only means that the next run takes as long.
    await writeCached(place, analysis).catch((error: unknown) => {
      const why = `Finished analyses cannot be kept in ${dirname(place)} (${writeTrouble(error)})`;
      options.onNotice?.(`${why}: the next run will take as long as this one.`);
    });
    await catalogue.remember(file, infoOf(analysis), { identity, of: outlineOf(analysis) });
    return { result: analysis, cached: moved !== null };
  };
}

/** What opening a file tells, and of a file that does not open the error, unless another part has it. */
async function inspectShare(
  steps: CrateSteps,
  file: string,
  options: TrackOptions,
): Promise<AudioFileInfo | 'other-shard'> {
  try {
    const info = await steps.inspect(file, options);
    return isOurs(info, options) ? info : 'other-shard';
  } catch (error) {
    if (options.shard && !(await failsInShard(file, options.shard))) return 'other-shard';
    throw error;
  }
}

function isOurs({ audioDigest }: AudioFileInfo, { shard }: TrackOptions): boolean {
  return !shard || inShard(audioDigest, shard);
}

/** The first that is one of this audio, by this program and these options. */
async function readMoved(places: readonly string[], info: AudioFileInfo, identity: Identity) {
  for (const place of places) {
    const kept = await readCached(place, info, identity);
    if (kept) return kept;
  }
  return null;
}

/** Its outline only: a file that has not changed is not opened, and neither is its analysis. */
export function outlineOfTrack(steps: CrateSteps, catalogue: Catalogue, elsewhere: Elsewhere): OneTrack<TrackOutline> {
  const whole = analysisOf(steps, catalogue, elsewhere);
  return async (file, options) => {
    const known = await catalogue.info(file);
    if (known && !isOurs(known, options)) return 'other-shard';
    const told = known && (await withCorrections(known, options));
    const outline = told && (await catalogue.outline(file, steps.identity(told)));
    if (outline) return { result: outline, cached: true };
    const made = await whole(file, told ?? options);
    if (made === 'other-shard') return made;
    const identity = made.result.analysis;
    const result = outlineOf(made.result);
    // The analysis may have been there without the catalogue knowing of it.
    if (made.cached) await catalogue.remember(file, infoOf(made.result), { identity, of: result });
    return { result, cached: made.cached };
  };
}

/** The options with what somebody has said about this track: it is part of what a kept analysis is valid for. */
async function withCorrections({ audioDigest }: AudioFileInfo, options: TrackOptions): Promise<TrackOptions> {
  if (options.corrections) return options;
  const said = await readCorrections(audioDigest, options.correctionsFolder);
  return { ...options, corrections: said.map(plainCorrection) };
}

function infoOf({ source }: TrackAnalysis): AudioFileInfo {
  const { file, audioDigest, durationSeconds, sampleRate, channels, codec, tags } = source;
  return { file, audioDigest, durationSeconds, sampleRate, channels, codec, tags };
}
