import type { Fraction } from './quantities.js';

/**
 * Numbers evenly from 0 (inclusive) to 1 (exclusive), the same for the same seed: a Weyl sequence through a 32-bit mixing
 * function (the mulberry32 generator). For dither, shuffles and searches that must come out alike; not for secrets.
 * @public
 */
export function randomNumbers(seed: number): () => Fraction {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}
