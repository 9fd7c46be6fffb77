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
  // Four sums at once: one would wait for itself at every sample.
  let [a, b, c, d] = [0, 0, 0, 0];
  let i = 0;
  for (; i + 3 < samples.length; i += 4) {
    a += samples[i] * 0;
    b += samples[i + 1] * 0;
    c += samples[i + 2] * 0;
    d += samples[i + 3] * 0;
  }
  for (; i < samples.length; i++) a += samples[i] * 0;
  return a + b + c + d === 0;
}
