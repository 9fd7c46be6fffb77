import { median, type Fraction, type Seconds } from '../units/index.js';
import { eventScore, nearest, type FScore } from './matching.js';
import { metricalVariations } from './variations.js';

/**
 * Half-width of the window in which a beat counts as found: Davies, Degara & Plumbley, "Evaluation methods for musical audio beat tracking algorithms", 2009.
 * @experimental
 */
export const BEAT_WINDOW: Seconds = 0.07;
/** Beats before this are not judged, as in mir_eval. @experimental */
export const TRIM: Seconds = 5;
/** Width of Cemgil's Gaussian. */
const CEMGIL_SIGMA: Seconds = 0.04;
/** Half-width of the P-score's window as a share of the median beat. */
const P_SCORE_SHARE = 0.2;
/** Rate of the P-score's impulse trains. */
const P_SCORE_RATE = 100;

/** The times from 5 s on. @experimental */
export function trimBeats(beats: readonly Seconds[], from: Seconds = TRIM): Seconds[] {
  return beats.filter((t) => t >= from);
}

/** F-measure of beats within ±70 ms. Trim both lists first; the lists ascend. @experimental */
export function beatScore(
  reference: readonly Seconds[],
  estimate: readonly Seconds[],
  window: Seconds = BEAT_WINDOW,
): FScore {
  return eventScore(reference, estimate, window);
}

/**
 * Cemgil's accuracy: a Gaussian of σ = 40 ms around each beat instead of a window; Cemgil, Kappen, Desain & Honing,
 * "On tempo tracking", JNMR 2001.
 *
 * @experimental
 * @returns at the annotated metrical level, and at the best of the annotated one, the off-beats, double and half time
 */
export function cemgil(
  reference: readonly Seconds[],
  estimate: readonly Seconds[],
): { score: Fraction; bestLevel: Fraction } {
  if (reference.length === 0 || estimate.length === 0) return { score: 0, bestLevel: 0 };
  const scores = metricalVariations(reference).map((beats) => {
    if (beats.length === 0) return 0;
    let sum = 0;
    for (const beat of beats)
      sum += Math.exp(-((beat - estimate[nearest(estimate, beat)]) ** 2) / (2 * CEMGIL_SIGMA ** 2));
    return sum / (0.5 * (estimate.length + beats.length));
  });
  return { score: scores[0], bestLevel: Math.max(...scores) };
}

/**
 * P-score: cross-correlation of the two impulse trains within a fifth of a beat; McKinney et al., JNMR 2007.
 * @experimental
 */
export function pScore(reference: readonly Seconds[], estimate: readonly Seconds[]): Fraction {
  if (reference.length < 2 || estimate.length < 2) return 0;
  const offset = Math.min(reference[0], estimate[0]);
  const slots = (beats: readonly Seconds[]) => new Set(beats.map((t) => Math.ceil((t - offset) * P_SCORE_RATE)));
  const references = slots(reference);
  const estimates = slots(estimate);
  const order = [...references].sort((a, b) => a - b);
  const reach = Math.round(P_SCORE_SHARE * median(order.slice(1).map((v, i) => v - order[i])));
  let sum = 0;
  for (const slot of references) for (let lag = -reach; lag <= reach; lag++) if (estimates.has(slot + lag)) sum++;
  return sum / Math.max(reference.length, estimate.length);
}
