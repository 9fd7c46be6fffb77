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

/** A sum of differences that should be 0 tells at a glance: four side by side, because each waits for the one before. */
function allFinite(x: Float32Array): boolean {
  let [a, b, c, d] = [0, 0, 0, 0];
  const whole = x.length - (x.length % 4);
  for (let i = 0; i < whole; i += 4) {
    a += x[i] - x[i];
    b += x[i + 1] - x[i + 1];
    c += x[i + 2] - x[i + 2];
    d += x[i + 3] - x[i + 3];
  }
  for (let i = whole; i < x.length; i++) a += x[i] - x[i];
  return a + b + c + d === 0;
}
