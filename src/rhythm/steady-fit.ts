import type { Seconds } from '../units/index.js';
import { fitLine, median, type LineFit } from './line-fit.js';
import type { Transient } from './transients.js';

/** Width of the kernel with which the commonest residual is looked for. */
const KERNEL: Seconds = 0.0015;

/** Transients this close to the commonest residual belong to the beat. */
const NEAR: Seconds = 0.005;

/**
 * Fits a steady grid to transients near expected beats. Where several instruments strike around the beat the residuals
 * have several heaps: the heaviest is taken first and the line is fitted to it.
 * @param expected the times around which the transients were found
 * @returns null when fewer than eight transients agree
 */
export function fitSteady(transients: readonly Transient[], expected: ArrayLike<Seconds>): LineFit | null {
  if (transients.length < 8) return null;
  const residuals = transients.map((t) => t.time - expected[t.beat]);
  const centre = heaviest(
    residuals,
    transients.map((t) => Math.min(t.rise, 20)),
  );
  const near = transients.filter((_, i) => Math.abs(residuals[i] - centre) <= NEAR);
  if (near.length < 8) return null;
  return fitLine(near);
}

/** The place where a kernel of KERNEL gathers most weight. */
export function heaviest(values: readonly number[], weights: readonly number[]): number {
  const order = values.map((_, i) => i).sort((a, b) => values[a] - values[b]);
  const sorted = Float64Array.from(order, (i) => values[i]);
  const weight = Float64Array.from(order, (i) => weights[i]);
  let best = median(values);
  let bestMass = -1;
  let from = 0;
  for (let i = 0; i < sorted.length; i++) {
    const value = sorted[i];
    while (sorted[from] < value - 3 * KERNEL) from++;
    const mass = massAround(sorted, weight, from, value);
    if (mass > bestMass) {
      best = value;
      bestMass = mass;
    }
  }
  return best;
}

/** Weight under the kernel at a value, of what lies from a place on. */
function massAround(sorted: Float64Array, weight: Float64Array, from: number, value: number): number {
  let mass = 0;
  for (let j = from; j < sorted.length && sorted[j] <= value + 3 * KERNEL; j++) {
    const off = (sorted[j] - value) / KERNEL;
    mass += weight[j] * Math.exp(-0.5 * (off * off));
  }
  return mass;
}
