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

/** Bits of a sample without its sign, and what makes a carry into the sign's place of the highest exponent alone (IEEE 754). */
const MAGNITUDE = 0x7fffffff;
const CARRY = 0x00800000;

/** What is no finite number has the highest exponent: looked for in the bits, four samples at once. */
function allFinite(samples: Float32Array): boolean {
  const bits = new Int32Array(samples.buffer, samples.byteOffset, samples.length);
  let a = 0;
  let b = 0;
  let i = 0;
  for (; i + 3 < bits.length; i += 4) {
    a |= ((bits[i] & MAGNITUDE) + CARRY) | ((bits[i + 1] & MAGNITUDE) + CARRY);
    b |= ((bits[i + 2] & MAGNITUDE) + CARRY) | ((bits[i + 3] & MAGNITUDE) + CARRY);
  }
  for (; i < bits.length; i++) a |= (bits[i] & MAGNITUDE) + CARRY;
  return (a | b) >= 0;
}
