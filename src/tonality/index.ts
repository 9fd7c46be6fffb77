export { createKeyFinder, type KeyFinder } from './finder.js';
export type { Key, KeyAlternative } from './key.js';
export { referenceBeats } from './reference-beats.js';
export type { BeatMethod } from './essentia.js';
