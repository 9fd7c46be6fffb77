import type { Hertz } from '../units/index.js';

/** A second-order filter section that remembers its state between samples. */
export type Biquad = (x: number) => number;

/** Coefficients of a second-order section with a0 = 1. */
export interface BiquadCoefficients {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

/** Transposed direct form II, sample by sample. */
export function createBiquad({ b0, b1, b2, a1, a2 }: BiquadCoefficients): Biquad {
  let z1 = 0;
  let z2 = 0;
  return (x) => {
    const y = b0 * x + z1;
    z1 = b1 * x - a1 * y + z2;
    z2 = b2 * x - a2 * y;
    return y;
  };
}

/** A filter's state, or zero where it has all but died away: subnormal numbers cost a hundred times as much. */
export function settled(state: number): number {
  return Math.abs(state) < 1e-25 ? 0 : state;
}

/** Second-order Butterworth low-pass or high-pass by the bilinear transform with pre-warping. */
export function butterworth(kind: 'low' | 'high', cutoff: Hertz, rate: Hertz): BiquadCoefficients {
  const k = Math.tan((Math.PI * cutoff) / rate);
  const norm = 1 / (1 + Math.SQRT2 * k + k * k);
  const a1 = 2 * (k * k - 1) * norm;
  const a2 = (1 - Math.SQRT2 * k + k * k) * norm;
  return kind === 'low'
    ? { b0: k * k * norm, b1: 2 * k * k * norm, b2: k * k * norm, a1, a2 }
    : { b0: norm, b1: -2 * norm, b2: norm, a1, a2 };
}
