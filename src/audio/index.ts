export * from './source.js';
export { openAudio, type OpenedAudio, type OpenOptions } from './open.js';
export type { DecoderChoice } from './container.js';
export { encodeWav, writeWav, type WavOptions } from './wavwriter.js';
export { writeAtomically, writeTrouble } from './atomic.js';
export { resampleTo } from './resample.js';
export { toStereo } from './downmix.js';
