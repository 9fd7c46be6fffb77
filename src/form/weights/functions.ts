import type { FunctionWeights } from '../functions.js';

/** Fitted as a conditional random field over the sections of arranged tracks; cues in the order of FUNCTION_CUES. */
export const FUNCTION_WEIGHTS: FunctionWeights = {
  cues: {
    intro: [
      0.786, 1.15, -0.000775, 0.865, -0.000744, 0.76, -0.31, -0.21, -2.27, 0.599, -0.226, 0.187, -0.713, -0.212, 1.8,
      0.387, -1.06,
    ],
    'build-up': [
      -0.711, -0.206, -0.442, -0.901, -0.835, 1.8, -0.894, -0.921, 1.51, -1.49, -0.655, -0.325, 0.857, 0.696, 4.99,
      0.787, 0.088,
    ],
    drop: [
      0.144, -0.00727, -0.411, 1.48, 0.463, -2.6, 0.0248, 0.884, 2.13, 0.153, -0.0284, 0.0676, 0.698, 1.35, -1.15,
      0.0245, -0.0105,
    ],
    main: [
      0.348, -0.00684, 0.997, 0.0409, 0.26, -0.159, 1.05, 1.51, 1.69, 0.662, 0.676, -0.29, -0.82, -0.658, -3.88, -1.5,
      -0.00666,
    ],
    breakdown: [
      -0.288, -0.928, -0.228, -2.23, 0.238, -0.857, 0.715, -1.06, -0.896, -1.21, 2.04, 0.53, -1.07, -0.579, -1.44,
      -1.29, -0.377,
    ],
    outro: [
      -0.279, -0.0000968, 0.086, 0.744, -0.125, 1.06, -0.583, -0.202, -2.16, 1.29, -1.81, -0.169, 1.05, -0.595, -0.329,
      1.59, 1.36,
    ],
  },
  follows: {
    intro: { intro: -1.1, 'build-up': 1.42, drop: -3.82, main: 6.44, breakdown: 2.31, outro: -6 },
    'build-up': { intro: -12.2, 'build-up': -5.27, drop: 1.59, main: -4.9, breakdown: -3.67, outro: -1.86 },
    drop: { intro: -12.1, 'build-up': -3.24, drop: 0.965, main: 1.64, breakdown: -0.167, outro: 1.27 },
    main: { intro: -12.4, 'build-up': -2.32, drop: -6.79, main: 0.0742, breakdown: 0.216, outro: 0.464 },
    breakdown: { intro: -12.1, 'build-up': 2.37, drop: 1.01, main: -5.89, breakdown: 1.15, outro: -4.53 },
    outro: { intro: -12.8, 'build-up': -12.1, drop: -12, main: -12, breakdown: -12.1, outro: -3.2 },
  },
};
