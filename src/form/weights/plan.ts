import type { Logistic } from '../../learned/index.js';

/** Sections follow what the phrases do. Made by tests/form/training/train-form.ts. */
export const PLAN_WEIGHTS: Logistic = {
  mean: [0.8616, 0.7254, 0.4075, 1.641, 2.73, 1.117, 4.398, 0.6188],
  scale: [0.0909, 0.1621, 0.2013, 1.175, 0.777, 1.431, 0.5004, 0.1776],
  weights: [0.5996, 0.5003, 0.4359, 0.1258, 0.02184, 0.9778, 0.6015, 0.137],
  bias: -2.121,
};
