export {
  analyseCrate,
  listCrate,
  type CrateAnalysis,
  type CrateListing,
  type CrateOptions,
  type CrateResult,
  type TrackDone,
} from './crate.js';
export { CACHE_FOLDER } from './cache.js';
export { findDuplicates } from './duplicates.js';
export { AUDIO_ENDINGS, findTracks, type FoundTracks } from './find.js';
export type { CrateFailure } from './failure.js';
export { cacheHealth, tidyCache, type CacheHealth } from './health.js';
export { outlineOf, type TrackOutline } from './outline.js';
export { CRATE_ORDERS, phraseRegularity, queryCrate, trackName, type CrateOrder, type CrateQuery } from './query.js';
export { parseShard, type Shard } from './shard.js';
export { standingOut, STAND_OUT_KINDS, type StandOut } from './stand-out.js';
