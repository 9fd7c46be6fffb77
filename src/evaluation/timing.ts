import { median, type Fraction, type Seconds } from '../units/index.js';
import { BEAT_WINDOW } from './beats.js';
import { matchEvents, nearest } from './matching.js';

/** How exact the beats are that were found at all. @experimental */
export interface BeatTiming {
  /** Median of the absolute errors; null when nothing matches. */
  readonly medianError: Seconds | null;
  readonly percentile95: Seconds | null;
  /** Mean of estimate minus reference: positive when late. */
  readonly bias: Seconds | null;
  /** Share of the reference beats that were found within ±70 ms. */
  readonly matched: Fraction;
  /** How far the lists have run apart at the end: the error of the last beat of the one that ends earlier; null without beats. */
  readonly last: Seconds | null;
}

/** Timing errors over the beats matched within ±70 ms; trim both lists first. @experimental */
export function beatTiming(reference: readonly Seconds[], estimate: readonly Seconds[]): BeatTiming {
  const errors = matchEvents(reference, estimate, BEAT_WINDOW).map(([r, e]) => estimate[e] - reference[r]);
  const last = lastError(reference, estimate);
  if (errors.length === 0) return { medianError: null, percentile95: null, bias: null, matched: 0, last };
  const absolute = errors.map(Math.abs).sort((a, b) => a - b);
  return {
    medianError: median(absolute),
    percentile95: quantile(absolute, 0.95),
    bias: errors.reduce((a, b) => a + b, 0) / errors.length,
    matched: errors.length / reference.length,
    last,
  };
}

/** The last beat of the list that ends earlier against the nearest of the other. */
function lastError(reference: readonly Seconds[], estimate: readonly Seconds[]): Seconds | null {
  if (reference.length < 2 || estimate.length === 0) return null;
  const end = reference[reference.length - 1];
  const half = (end - reference[reference.length - 2]) / 2;
  const [shorter, longer] = estimate[estimate.length - 1] < end - half ? [estimate, reference] : [reference, estimate];
  const last = shorter[shorter.length - 1];
  return Math.abs(longer[nearest(longer, last)] - last);
}

/** Quantile of sorted values by linear interpolation (type 7, as in numpy). @experimental */
export function quantile(sorted: readonly number[], q: Fraction): number {
  const at = (sorted.length - 1) * q;
  const low = Math.floor(at);
  const high = Math.min(low + 1, sorted.length - 1);
  return sorted[low] + (sorted[high] - sorted[low]) * (at - low);
}
