import type { Fraction, Seconds } from '../units/index.js';
import { nearest } from './matching.js';

const BINS = 41;

/**
 * Information gain of the beat error over a uniform one, 0 to 1: Davies, Degara & Plumbley, "Measuring the performance
 * of beat tracking algorithms using a beat error histogram", IEEE SPL 2011. The worse of both directions counts.
 * @experimental
 */
export function informationGain(reference: readonly Seconds[], estimate: readonly Seconds[]): Fraction {
  if (reference.length < 2 || estimate.length < 2) return 0;
  const full = Math.log2(BINS);
  return (full - Math.max(errorEntropy(reference, estimate), errorEntropy(estimate, reference))) / full;
}

/** Entropy in bits of the errors of `estimate`, each as a share of the interval of `reference` it falls into. */
function errorEntropy(reference: readonly Seconds[], estimate: readonly Seconds[]): number {
  const counts = new Float64Array(BINS);
  for (const beat of estimate) {
    const n = nearest(reference, beat);
    const error = beat - reference[n];
    const share = error / intervalAround(reference, n, error);
    const wrapped = share - Math.round(share);
    counts[Math.min(BINS - 1, Math.floor((wrapped + 0.5) * BINS))]++;
  }
  let entropy = 0;
  for (const count of counts) if (count > 0) entropy -= (count / estimate.length) * Math.log2(count / estimate.length);
  return entropy;
}

/**
 * The interval on the side where the error lies. Past the last beat that is the last interval; before the first one
 * mir_eval takes (backwards) the whole length, and so do we, to agree with it.
 */
function intervalAround(reference: readonly Seconds[], n: number, error: Seconds): Seconds {
  const last = reference.length - 1;
  if (n === last) return reference[last] - reference[last - 1];
  if (error >= 0) return reference[n + 1] - reference[n];
  return n === 0 ? reference[0] - reference[last] : reference[n] - reference[n - 1];
}
