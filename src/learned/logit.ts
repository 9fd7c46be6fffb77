import type { Fraction } from '../units/index.js';

/**
 * Weights of a conditional logit (McFadden, "Conditional logit analysis of qualitative choice behavior", 1974): the
 * candidates of one track compete through a softmax over scores that are linear in their cues.
 */
export interface LogitWeights {
  /** Name of the choice and when it was fitted, e.g. `beat-2026-11-25`. */
  readonly id: string;
  /** Front end whose numbers the cues are made from. */
  readonly frontEndId: string;
  /** Name of each cue, in order. */
  readonly cues: readonly string[];
  /** Each cue is taken as (value − mean) / scale, limited to ±LIMIT. */
  readonly mean: readonly number[];
  readonly scale: readonly number[];
  readonly weights: readonly number[];
  /** Scores are divided by this before the softmax: fitted on held-out folds so that the weights are calibrated. */
  readonly temperature: number;
  /** Where the weights come from, in words: songs, folds, penalty. */
  readonly origin: string;
}

/** Standardised cues beyond this are cut: one freak value must not decide. */
export const CUE_LIMIT = 4;

/** Standardises a cue vector. */
export function standardise(cues: ArrayLike<number>, mean: readonly number[], scale: readonly number[]): Float64Array {
  const out = new Float64Array(mean.length);
  for (let i = 0; i < out.length; i++) {
    const z = (cues[i] - mean[i]) / scale[i];
    out[i] = Number.isFinite(z) ? Math.max(-CUE_LIMIT, Math.min(CUE_LIMIT, z)) : 0;
  }
  return out;
}

/** The linear score of one candidate, already divided by the temperature. */
export function logitScore(model: LogitWeights, cues: ArrayLike<number>): number {
  if (cues.length !== model.weights.length)
    throw new Error(`${model.id}: ${cues.length} cues, ${model.weights.length} weights`);
  const z = standardise(cues, model.mean, model.scale);
  let score = 0;
  for (let i = 0; i < z.length; i++) score += z[i] * model.weights[i];
  return score / model.temperature;
}

/** Softmax: shares that sum to 1. @example softmax([0, 0]) // [0.5, 0.5] */
export function softmax(scores: readonly number[]): Fraction[] {
  const top = Math.max(...scores);
  const e = scores.map((s) => Math.exp(s - top));
  const sum = e.reduce((a, b) => a + b, 0);
  return e.map((v) => v / sum);
}
