import type { Logistic } from '../../learned/index.js';

/** Sections follow what the phrases do. Made by tests/form/training/train-form.ts. */
export const PLAN_WEIGHTS: Logistic = {
  mean: [0.8694, 0.6203, 0.7363, 1.635, 1.2],
  scale: [0.08496, 0.1732, 0.1563, 1.166, 1.401],
  weights: [0.6932, 0.129, 0.6307, 0.2924, 1.069],
  bias: -1.905,
};
