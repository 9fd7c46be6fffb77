import { minimise } from './minimise.js';

/** A logistic regression on standardised cues, cut at ±LIMIT. */
export interface Logistic {
  readonly mean: readonly number[];
  readonly scale: readonly number[];
  readonly weights: readonly number[];
  readonly bias: number;
}

/** Standardised cues beyond this are cut: one freak value must not decide. */
export const LIMIT = 4;

/** Log-odds of one cue vector, read from `values` at `offset`. */
export function logOdds({ mean, scale, weights, bias }: Logistic, values: ArrayLike<number>, offset = 0): number {
  let sum = bias;
  for (let k = 0; k < weights.length; k++) {
    const z = (values[offset + k] - mean[k]) / scale[k];
    sum += weights[k] * Math.max(-LIMIT, Math.min(LIMIT, z));
  }
  return sum;
}

/** Probability of log-odds. */
export function sigmoid(x: number): number {
  return 1 / (1 + Math.exp(-x));
}

/** An example: cues, what is true, and how much it counts. */
export interface Example {
  readonly cues: ArrayLike<number>;
  readonly right: boolean;
  readonly weight: number;
}

/** Fits by maximum likelihood with an L2 penalty on the standardised weights (not the bias), per example of weight 1. */
export function fitLogistic(examples: readonly Example[], l2: number): Logistic {
  const n = examples[0].cues.length;
  const total = examples.reduce((s, e) => s + e.weight, 0);
  const { mean, scale } = momentsOf(examples);
  const rows = examples.map((e) =>
    Float64Array.from({ length: n }, (_, k) => Math.max(-LIMIT, Math.min(LIMIT, (e.cues[k] - mean[k]) / scale[k]))),
  );
  const x = minimise(
    (w, gradient) => {
      gradient.fill(0);
      let loss = 0;
      examples.forEach((e, i) => {
        let s = w[n];
        const z = rows[i];
        for (let k = 0; k < n; k++) s += w[k] * z[k];
        const y = e.right ? 1 : -1;
        const share = e.weight / total;
        loss += share * (y * s > 0 ? Math.log1p(Math.exp(-y * s)) : -y * s + Math.log1p(Math.exp(y * s)));
        const d = -share * y * sigmoid(-y * s);
        for (let k = 0; k < n; k++) gradient[k] += d * z[k];
        gradient[n] += d;
      });
      for (let k = 0; k < n; k++) {
        loss += (l2 / total) * w[k] * w[k];
        gradient[k] += ((2 * l2) / total) * w[k];
      }
      return loss;
    },
    new Float64Array(n + 1),
  );
  return { mean, scale, weights: Array.from(x.subarray(0, n)), bias: x[n] };
}

/** Mean and spread of each cue, weighted; a cue that never changes has spread 1. */
export function momentsOf(examples: readonly Example[]): { mean: number[]; scale: number[] } {
  const n = examples[0].cues.length;
  const total = examples.reduce((s, e) => s + e.weight, 0);
  const mean = new Array<number>(n).fill(0);
  const scale = new Array<number>(n).fill(0);
  for (const e of examples) for (let k = 0; k < n; k++) mean[k] += (e.cues[k] * e.weight) / total;
  for (const e of examples) for (let k = 0; k < n; k++) scale[k] += ((e.cues[k] - mean[k]) ** 2 * e.weight) / total;
  for (let k = 0; k < n; k++) scale[k] = Math.sqrt(scale[k]) || 1;
  return { mean, scale };
}
