import type { AudioBlock } from './source.js';

/** Sets samples that are no finite number to 0, in place. @returns how many there were */
export function makeFinite(block: AudioBlock): number {
  let count = 0;
  for (const samples of block) {
    if (allFinite(samples)) continue;
    for (let i = 0; i < samples.length; i++) {
      if (samples[i] - samples[i] !== 0) {
        samples[i] = 0;
        count++;
      }
    }
  }
  return count;
}

/** Zero times anything finite is zero, so one sum tells at a glance. */
function allFinite(samples: Float32Array): boolean {
  let sum = 0;
  for (let i = 0; i < samples.length; i++) sum += samples[i] * 0;
  return sum === 0;
}
