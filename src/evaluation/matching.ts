import type { Fraction, Seconds } from '../units/index.js';

/** Precision, recall and their harmonic mean. @experimental */
export interface FScore {
  readonly f: Fraction;
  readonly precision: Fraction;
  readonly recall: Fraction;
}

/**
 * The largest one-to-one matching of two sorted lists of times in which matched times lie within a window. Taking the
 * earliest possible partner each time is optimal, because all windows are equally wide.
 *
 * @experimental
 * @param window seconds, inclusive
 * @returns pairs of indices, reference first
 */
export function matchEvents(
  reference: readonly Seconds[],
  estimate: readonly Seconds[],
  window: Seconds,
): [number, number][] {
  const pairs: [number, number][] = [];
  for (let r = 0, e = 0; r < reference.length && e < estimate.length;) {
    const late = estimate[e] - reference[r];
    if (Math.abs(late) <= window) pairs.push([r++, e++]);
    else if (late > 0) r++;
    else e++;
  }
  return pairs;
}

/** F-measure of a count of matches; 0 when either list is empty. @experimental */
export function fScore(matches: number, references: number, estimates: number): FScore {
  const precision = estimates > 0 ? matches / estimates : 0;
  const recall = references > 0 ? matches / references : 0;
  return { f: matches > 0 ? (2 * precision * recall) / (precision + recall) : 0, precision, recall };
}

/** F-measure of events within a window. @experimental */
export function eventScore(reference: readonly Seconds[], estimate: readonly Seconds[], window: Seconds): FScore {
  return fScore(matchEvents(reference, estimate, window).length, reference.length, estimate.length);
}

/** Index of the value of a sorted, non-empty list that is nearest to a time; the earlier one of two equally near. */
export function nearest(sorted: readonly Seconds[], time: Seconds): number {
  let low = 0;
  let high = sorted.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle] < time) low = middle + 1;
    else high = middle;
  }
  return low > 0 && time - sorted[low - 1] <= sorted[low] - time ? low - 1 : low;
}

/** The time of a sorted, non-empty list that is nearest to a time. @experimental */
export function nearestTime(sorted: readonly Seconds[], time: Seconds): Seconds {
  return sorted[nearest(sorted, time)];
}
