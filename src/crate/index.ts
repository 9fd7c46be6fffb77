export { analyseCrate, type CrateAnalysis, type CrateOptions, type TrackDone } from './crate.js';
export { CACHE_FOLDER } from './cache.js';
export { AUDIO_ENDINGS, findTracks, type FoundTracks } from './find.js';
export type { CrateFailure } from './failure.js';
