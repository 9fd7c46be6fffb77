import { createDraw } from '../learned/index.js';
import type { Fraction } from '../units/index.js';
import { quantile } from './timing.js';

/** A statistic with the interval that holds it in `level` of the resamplings. @experimental */
export interface Interval {
  /** The mean, or the quantile that was asked for, of the values themselves. */
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  readonly count: number;
}

/** How an interval is drawn: its level (default 0.95), how many resamples, and the seed. @experimental */
export interface BootstrapOptions {
  readonly level?: Fraction;
  readonly resamples?: number;
  readonly seed?: number;
}

/**
 * Percentile bootstrap of a mean: Efron & Tibshirani, "An Introduction to the Bootstrap", 1993, ch. 13. Seeded, so that
 * the same values give the same interval.
 *
 * @experimental
 * @throws RangeError for no values
 */
export function bootstrapMean(values: readonly number[], options: BootstrapOptions = {}): Interval {
  return bootstrap(values, (sample) => sample.reduce((a, b) => a + b, 0) / sample.length, options);
}

/**
 * Percentile bootstrap of a quantile (0.5 is the median), by linear interpolation.
 *
 * @experimental
 * @throws RangeError for no values
 */
export function bootstrapQuantile(values: readonly number[], q: Fraction, options: BootstrapOptions = {}): Interval {
  return bootstrap(
    values,
    (sample) =>
      quantile(
        [...sample].sort((a, b) => a - b),
        q,
      ),
    options,
  );
}

function bootstrap(
  values: readonly number[],
  statistic: (sample: readonly number[]) => number,
  { level = 0.95, resamples = 2000, seed = 1 }: BootstrapOptions,
): Interval {
  if (values.length === 0) throw new RangeError('An interval needs at least one value.');
  const random = generator(seed);
  const found = Array.from({ length: resamples }, () =>
    statistic(values.map(() => values[Math.floor(random() * values.length)])),
  ).sort((a, b) => a - b);
  const ends = [(1 - level) / 2, (1 + level) / 2].map((q) => quantile(found, q));
  return { mean: statistic(values), low: ends[0], high: ends[1], count: values.length };
}

/** Numbers in [0, 1) by a 32-bit xorshift generator (Marsaglia, "Xorshift RNGs", 2003). @experimental */
export function generator(seed: number): () => number {
  return createDraw(Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) >>> 0 || 1);
}
