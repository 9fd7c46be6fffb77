import type { Logistic } from '../logistic.js';

/** A bar has beats too many or too few. Made by tests/corpus/train-odd-bars.ts. */
export const ODD_BAR_WEIGHTS: Logistic & { readonly id: string } = {
  id: 'odd-bars-2026-11-29',
  mean: [-2.188, -2.042, -6.941, -20.74, 5.972, 2.501, 2.238, 0.2654, 0.2451, 11.7, -30.79, 0.106, 2.468],
  scale: [9.714, 9.598, 16.53, 27.6, 7.933, 7.683, 7.491, 0.4415, 0.4301, 5.429, 35.34, 0.3078, 11.65],
  weights: [0.2937, 0.2946, 0.2577, 0.5335, 0.3811, 0.4328, 0.4474, 0.3843, 0.3272, 0.8826, 1.076, 0.8747, 0.76],
  bias: -6.574,
};
