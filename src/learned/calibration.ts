import type { Fraction } from '../units/index.js';
import { sigmoid } from './logistic.js';
import { minimise } from './minimise.js';

/** A line on the log-odds of a confidence; `slope` 1 and `offset` 0 change nothing. */
export interface Calibration {
  readonly slope: number;
  readonly offset: number;
}

/** Nothing is surer than this: a handful of songs cannot tell one error in a thousand from none. */
export const SUREST: Fraction = 0.995;

/** A confidence as often right as it says. @param p 0 to 1 @returns within 1 − SUREST … SUREST, ascending in p */
export function calibrated(p: Fraction, { slope, offset }: Calibration): Fraction {
  return limited(sigmoid(slope * logOdds(p) + offset));
}

/**
 * Fits the line by penalised likelihood on answers to tracks the weights had not seen: Platt, "Probabilistic outputs for
 * support vector machines", 1999. The penalty draws it to no change, and the slope stays positive: order is kept.
 *
 * @param answers with the confidence they were given with
 * @param pull weight of "no change", in answers
 */
export function fitCalibration(
  answers: readonly { readonly confidence: Fraction; readonly right: boolean; readonly weight?: number }[],
  pull = 1,
): Calibration {
  const rows = answers.map((a) => ({ x: logOdds(a.confidence), y: Number(a.right), w: a.weight ?? 1 }));
  const [log, offset] = minimise((w, gradient) => {
    const slope = Math.exp(w[0]);
    gradient[0] = 2 * pull * w[0];
    gradient[1] = 2 * pull * w[1];
    let loss = pull * (w[0] * w[0] + w[1] * w[1]);
    for (const { x, y, w: weight } of rows) {
      const p = sigmoid(slope * x + w[1]);
      loss -= weight * Math.log(Math.max(y === 1 ? p : 1 - p, 1e-12));
      gradient[0] += weight * (p - y) * slope * x;
      gradient[1] += weight * (p - y);
    }
    return loss;
  }, new Float64Array(2));
  return { slope: Math.exp(log), offset };
}

function logOdds(p: Fraction): number {
  const q = limited(p);
  return Math.log(q / (1 - q));
}

function limited(p: Fraction): Fraction {
  return Math.min(SUREST, Math.max(1 - SUREST, p));
}
