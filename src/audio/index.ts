export * from './source.js';
export { encodeWav, writeWav, type WavOptions } from './wavwriter.js';
