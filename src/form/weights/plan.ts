import type { Logistic } from '../../learned/index.js';

/** Sections follow what the phrases do. Made by tests/form/training/train-form.ts. */
export const PLAN_WEIGHTS: Logistic = {
  mean: [0.8, 0.5343, 0.6512, 1.695, 1.759],
  scale: [0.1118, 0.1719, 0.1997, 1.15, 1.315],
  weights: [0.6405, 0.3182, 0.5923, 0.1188, 0.6434],
  bias: -1.382,
};
