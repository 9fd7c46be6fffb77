import type { Fraction } from '../units/index.js';
import { quantile } from './timing.js';

/** A mean with the interval that holds it in `level` of the resamplings. */
export interface Interval {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  readonly count: number;
}

/**
 * Percentile bootstrap of a mean: Efron & Tibshirani, "An Introduction to the Bootstrap", 1993, ch. 13. Seeded, so that
 * the same values give the same interval.
 *
 * @throws RangeError for no values
 */
export function bootstrapMean(
  values: readonly number[],
  { level = 0.95, resamples = 2000, seed = 1 }: { level?: Fraction; resamples?: number; seed?: number } = {},
): Interval {
  if (values.length === 0) throw new RangeError('A mean needs at least one value.');
  const random = generator(seed);
  const means: number[] = [];
  for (let r = 0; r < resamples; r++) {
    let sum = 0;
    for (let i = 0; i < values.length; i++) sum += values[Math.floor(random() * values.length)];
    means.push(sum / values.length);
  }
  means.sort((a, b) => a - b);
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return { mean, low: quantile(means, (1 - level) / 2), high: quantile(means, (1 + level) / 2), count: values.length };
}

/** Numbers in [0, 1) by a 32-bit xorshift generator (Marsaglia, "Xorshift RNGs", 2003). */
export function generator(seed: number): () => number {
  let state = Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}
