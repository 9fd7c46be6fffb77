import type { Hertz } from '../../units/index.js';
import { RATE } from './shot.js';

/** A state-variable filter: set its corner now and then, then take the output you want from each call. */
export interface Filter {
  /** Corner frequency and resonance (Q, 0.7 is flat). */
  tune(corner: Hertz, q: number): void;
  low(input: number): number;
  band(input: number): number;
  high(input: number): number;
}

/** A trapezoidal state-variable filter (Simper 2013, "Solving the continuous SVF equations"). */
export function createFilter(corner: Hertz, q = 0.7071): Filter {
  let k = 0;
  let a1 = 0;
  let a2 = 0;
  let a3 = 0;
  let state1 = 0;
  let state2 = 0;
  const tune = (frequency: Hertz, resonance: number): void => {
    const g = Math.tan((Math.PI * Math.min(frequency, RATE * 0.45)) / RATE);
    k = 1 / resonance;
    a1 = 1 / (1 + g * (g + k));
    a2 = g * a1;
    a3 = g * a2;
  };
  tune(corner, q);
  return {
    tune,
    low: (input) => {
      const v3 = input - state2;
      const v1 = a1 * state1 + a2 * v3;
      const v2 = state2 + a2 * state1 + a3 * v3;
      state1 = 2 * v1 - state1;
      state2 = 2 * v2 - state2;
      return v2;
    },
    band: (input) => {
      const v3 = input - state2;
      const v1 = a1 * state1 + a2 * v3;
      const v2 = state2 + a2 * state1 + a3 * v3;
      state1 = 2 * v1 - state1;
      state2 = 2 * v2 - state2;
      return v1 * k;
    },
    high: (input) => {
      const v3 = input - state2;
      const v1 = a1 * state1 + a2 * v3;
      const v2 = state2 + a2 * state1 + a3 * v3;
      state1 = 2 * v1 - state1;
      state2 = 2 * v2 - state2;
      return input - k * v1 - v2;
    },
  };
}

/** A smooth saturator close to tanh, within ±1. */
export function saturate(x: number): number {
  if (x > 3) return 1;
  if (x < -3) return -1;
  const square = x * x;
  return (x * (27 + square)) / (27 + 9 * square);
}
