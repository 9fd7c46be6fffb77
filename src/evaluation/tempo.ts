import type { Bpm, Fraction } from '../units/index.js';

/** Tolerance of both accuracies: Gouyon et al., "An experimental comparison of audio tempo induction algorithms", IEEE TASLP 2006. */
const TOLERANCE = 0.04;
/** Ratios to the annotated tempo that accuracy 2 forgives. */
const LEVELS = [1, 2, 3, 1 / 2, 1 / 3] as const;

/** How right a tempo is (Gouyon et al., IEEE TASLP 2006). @experimental */
export interface TempoScore {
  /** Within 4 % of the annotated tempo. */
  readonly accuracy1: boolean;
  /** Within 4 % of the annotated tempo, its double, triple, half or third. */
  readonly accuracy2: boolean;
  /** Relative error at the nearest of those levels; null when accuracy 2 fails. */
  readonly error: Fraction | null;
}

/**
 * Compares two tempos.
 * @experimental
 * @example tempoScore(174, 87).accuracy2 // true
 */
export function tempoScore(reference: Bpm, estimate: Bpm): TempoScore {
  const errors = LEVELS.map((level) => Math.abs(estimate / (reference * level) - 1));
  const best = Math.min(...errors);
  return { accuracy1: errors[0] <= TOLERANCE, accuracy2: best <= TOLERANCE, error: best <= TOLERANCE ? best : null };
}
