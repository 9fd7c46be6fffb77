import type { Fraction, Seconds } from '../units/index.js';
import { BEAT_WINDOW, median } from './beats.js';
import { matchEvents } from './matching.js';

/** How exact the beats are that were found at all. */
export interface BeatTiming {
  /** Median of the absolute errors; null when nothing matches. */
  readonly medianError: Seconds | null;
  readonly percentile95: Seconds | null;
  /** Mean of estimate minus reference: positive when late. */
  readonly bias: Seconds | null;
  /** Share of the reference beats that were found within ±70 ms. */
  readonly matched: Fraction;
}

/** Timing errors over the beats matched within ±70 ms; trim both lists first. */
export function beatTiming(reference: readonly Seconds[], estimate: readonly Seconds[]): BeatTiming {
  const errors = matchEvents(reference, estimate, BEAT_WINDOW).map(([r, e]) => estimate[e] - reference[r]);
  if (errors.length === 0) return { medianError: null, percentile95: null, bias: null, matched: 0 };
  const absolute = errors.map(Math.abs).sort((a, b) => a - b);
  return {
    medianError: median(absolute),
    percentile95: quantile(absolute, 0.95),
    bias: errors.reduce((a, b) => a + b, 0) / errors.length,
    matched: errors.length / reference.length,
  };
}

/** Quantile of sorted values by linear interpolation (type 7, as in numpy). */
export function quantile(sorted: readonly number[], q: Fraction): number {
  const at = (sorted.length - 1) * q;
  const low = Math.floor(at);
  const high = Math.min(low + 1, sorted.length - 1);
  return sorted[low] + (sorted[high] - sorted[low]) * (at - low);
}
