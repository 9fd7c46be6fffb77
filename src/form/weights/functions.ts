import type { FunctionWeights } from '../functions.js';

/** Fitted as a conditional random field over the sections of arranged tracks; cues in the order of FUNCTION_CUES. */
export const FUNCTION_WEIGHTS: FunctionWeights = {
  cues: {
    intro: [
      0.801, 1.13, -0.00124, 0.895, 0.0253, 0.704, -0.235, -0.244, -2.25, 0.574, -0.203, 0.236, -0.671, -0.188, 1.67,
      0.56, -1.02,
    ],
    'build-up': [
      -0.873, -0.269, -0.378, -0.923, -0.835, 1.59, -0.964, -0.883, 1.5, -1.39, -0.762, -0.319, 0.858, 0.646, 5.24,
      0.513, 0.157,
    ],
    drop: [
      0.293, -0.0123, -0.567, 1.57, 0.509, -2.56, 0.0515, 0.899, 2.12, 0.0592, 0.0406, 0.00279, 0.654, 1.33, -1.11,
      0.0655, 0.0387,
    ],
    main: [
      0.212, -0.0126, 1.17, -0.0143, 0.188, -0.127, 1.05, 1.51, 1.69, 0.687, 0.705, -0.265, -0.768, -0.66, -3.89, -1.42,
      -0.0486,
    ],
    breakdown: [
      -0.102, -0.835, -0.278, -2.21, 0.26, -0.649, 0.72, -1.05, -0.907, -1.22, 2.02, 0.522, -1.07, -0.576, -1.6, -1.26,
      -0.434,
    ],
    outro: [
      -0.331, -0.000115, 0.0568, 0.686, -0.147, 1.04, -0.618, -0.233, -2.14, 1.29, -1.8, -0.177, 0.997, -0.556, -0.306,
      1.55, 1.31,
    ],
  },
  follows: {
    intro: { intro: -1.5, 'build-up': 0.973, drop: -3.71, main: 5.4, breakdown: 1.46, outro: -6 },
    'build-up': { intro: -12.1, 'build-up': -4.38, drop: 1.48, main: -4.83, breakdown: -3.93, outro: -1.79 },
    drop: { intro: -12.1, 'build-up': -2.96, drop: 0.322, main: 0.954, breakdown: -0.795, outro: 0.99 },
    main: { intro: -12.3, 'build-up': -1.6, drop: -6.13, main: 0.028, breakdown: 0.266, outro: 0.83 },
    breakdown: { intro: -12.1, 'build-up': 2.47, drop: 0.482, main: -5.37, breakdown: 0.599, outro: -3.92 },
    outro: { intro: -12.6, 'build-up': -12.1, drop: -12, main: -12, breakdown: -12.1, outro: -3.03 },
  },
};
