import type { Logistic } from '../logistic.js';

/** A bar has beats too many or too few. Made by tests/corpus/train-odd-bars.ts. */
export const ODD_BAR_WEIGHTS: Logistic & { readonly id: string } = {
  id: 'odd-bars-1',
  mean: [-2.148, -1.998, -6.891, -20.62, 5.95, 2.492, 2.236, 0.2677, 0.2438, 11.71, -30.64, 0.106, 2.461],
  scale: [9.72, 9.597, 16.41, 27.5, 7.911, 7.669, 7.48, 0.4427, 0.4294, 5.429, 35.25, 0.3078, 11.64],
  weights: [0.2923, 0.2928, 0.2982, 0.485, 0.4079, 0.3784, 0.4162, 0.4032, 0.306, 0.9038, 1.082, 0.8822, 0.8045],
  bias: -6.553,
};
