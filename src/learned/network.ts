import { LIMIT } from './logistic.js';

/**
 * A logistic regression with a layer of hidden units beside it (rectified linear): besides adding cues up it can tell what
 * some of them mean together. Cues are standardised and cut at ±LIMIT.
 */
export interface Network {
  readonly mean: readonly number[];
  readonly scale: readonly number[];
  /** Weights of each unit in turn, as many as there are cues. */
  readonly hidden: readonly number[];
  /** One a unit. */
  readonly thresholds: readonly number[];
  /** What each unit counts. */
  readonly out: readonly number[];
  /** What each cue counts by itself. */
  readonly weights: readonly number[];
  readonly bias: number;
}

/** Log-odds of one cue vector, read from `values` at `offset`. */
export function networkOdds(net: Network, values: ArrayLike<number>, offset = 0): number {
  const { mean, scale, hidden, thresholds, out, weights, bias } = net;
  const n = weights.length;
  let sum = bias;
  const z = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    z[k] = Math.max(-LIMIT, Math.min(LIMIT, (values[offset + k] - mean[k]) / scale[k]));
    sum += weights[k] * z[k];
  }
  for (let h = 0; h < out.length; h++) {
    let s = thresholds[h];
    for (let k = 0; k < n; k++) s += hidden[h * n + k] * z[k];
    if (s > 0) sum += out[h] * s;
  }
  return sum;
}
