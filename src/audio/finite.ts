import type { AudioBlock } from './source.js';

/** Sets samples that are no finite number to 0, in place. @returns how many there were */
export function makeFinite(block: AudioBlock): number {
  let count = 0;
  for (const samples of block) {
    for (let i = 0; i < samples.length; i++) {
      if (samples[i] - samples[i] !== 0) {
        samples[i] = 0;
        count++;
      }
    }
  }
  return count;
}
