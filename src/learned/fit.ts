import { standardise, softmax, type LogitWeights } from './logit.js';
import { minimise } from './minimise.js';

/** The candidates of one track: their cues and which of them are right (at least one must be). */
export interface Choice {
  readonly cues: readonly (readonly number[])[];
  readonly right: readonly boolean[];
  /** How much this track counts; 1 when left out. */
  readonly weight?: number;
}

export interface FitOptions {
  /** L2 penalty on standardised weights, per track of weight 1. */
  readonly l2: number;
}

/** The numbers a fit finds; id, date and origin are the caller's. */
export type Fit = Pick<LogitWeights, 'mean' | 'scale' | 'weights'>;

/**
 * Fits a conditional logit by maximum penalised likelihood: −Σ log Σ_right softmax(score) + l2·|w|². With several right
 * candidates (near-duplicates) their shares add up.
 * @param choices at least one, each with at least one right candidate
 */
export function fitConditionalLogit(choices: readonly Choice[], { l2 }: FitOptions): Fit {
  const usable = choices.filter((c) => c.right.includes(true) && c.cues.length > 1);
  if (usable.length === 0) throw new Error('Nothing to fit: no track has a right candidate.');
  const { mean, scale } = moments(usable);
  const rows = usable.map((c) => c.cues.map((cues) => standardise(cues, mean, scale)));
  const n = mean.length;
  const total = usable.reduce((s, c) => s + (c.weight ?? 1), 0);
  const objective = (w: Float64Array, gradient: Float64Array): number => {
    gradient.fill(0);
    let loss = 0;
    usable.forEach((choice, t) => {
      const weight = (choice.weight ?? 1) / total;
      const scores = rows[t].map((z) => dot(z, w));
      const p = softmax(scores);
      const right = p.reduce((s, v, i) => (choice.right[i] ? s + v : s), 0);
      loss -= weight * Math.log(Math.max(right, 1e-300));
      rows[t].forEach((z, i) => {
        const g = weight * (p[i] - (choice.right[i] ? p[i] / Math.max(right, 1e-300) : 0));
        if (g !== 0) for (let k = 0; k < n; k++) gradient[k] += g * z[k];
      });
    });
    for (let k = 0; k < n; k++) {
      loss += (l2 / total) * w[k] * w[k];
      gradient[k] += (2 * l2 * w[k]) / total;
    }
    return loss;
  };
  const weights = minimise(objective, new Float64Array(n));
  return { mean, scale, weights: Array.from(weights) };
}

/**
 * The temperature by which scores must be divided so that the softmax shares of held-out tracks are calibrated: the
 * minimum of the log loss over a grid (Guo et al., "On calibration of modern neural networks", ICML 2017).
 * @param held scores and right candidates of tracks that were not fitted on
 */
export function fitTemperature(held: readonly { scores: readonly number[]; right: readonly boolean[] }[]): number {
  const loss = (t: number) =>
    held.reduce((sum, { scores, right }) => {
      const p = softmax(scores.map((s) => s / t)).reduce((s, v, i) => (right[i] ? s + v : s), 0);
      return sum - Math.log(Math.max(p, 1e-4));
    }, 0);
  let best = 1;
  for (let t = 0.3; t < 6; t *= 1.04) if (loss(t) < loss(best)) best = t;
  return best;
}

function moments(choices: readonly Choice[]): { mean: number[]; scale: number[] } {
  const n = choices[0].cues[0].length;
  const mean = new Array<number>(n).fill(0);
  const square = new Array<number>(n).fill(0);
  let count = 0;
  for (const { cues } of choices) {
    for (const row of cues) {
      count++;
      for (let k = 0; k < n; k++) {
        mean[k] += row[k];
        square[k] += row[k] * row[k];
      }
    }
  }
  for (let k = 0; k < n; k++) mean[k] /= count;
  const scale = square.map((s, k) => Math.sqrt(Math.max(s / count - mean[k] ** 2, 0)) || 1);
  return { mean, scale };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
