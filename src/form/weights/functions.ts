import type { FunctionWeights } from '../functions.js';

/** Fitted as a conditional random field over the sections of arranged tracks; cues in the order of FUNCTION_CUES. */
export const FUNCTION_WEIGHTS: FunctionWeights = {
  cues: {
    intro: [
      0.524, 0.691, -0.000067, 0.351, 0.551, -0.391, -0.3, 0.0376, -1.24, 0.217, 0.438, 0.754, -0.358, -0.156, 0.302,
      0.627, -0.0607,
    ],
    'build-up': [
      -0.245, -0.232, -0.0298, -0.716, -0.735, 0.342, -0.233, -0.691, 0.776, -0.606, 0.116, -0.343, -0.224, 0.386, 1.53,
      -0.18, 0.0214,
    ],
    drop: [
      0.0169, -0.0423, 0.267, 0.503, 0.557, 0.127, 0.667, 0.644, 0.584, 0.747, 0.421, -0.172, -0.36, 0.592, 0.179,
      -0.111, 0.342,
    ],
    main: [
      -0.35, -0.0183, -0.439, 0.153, 0.0247, 0.165, 0.424, 0.253, 1.07, 0.732, 0.536, -0.781, 0.613, 0.371, -0.85,
      -0.231, -0.617,
    ],
    breakdown: [
      -0.315, -0.398, -0.0616, -0.688, -0.57, -0.616, 0.483, -0.417, -0.609, -1.13, -0.391, 0.604, -0.102, -0.37, -1.24,
      -0.327, -0.167,
    ],
    outro: [
      0.37, -0.0000235, 0.264, 0.398, 0.172, 0.373, -1.04, 0.173, -0.585, 0.0362, -1.12, -0.0621, 0.432, -0.824, 0.0808,
      0.222, 0.481,
    ],
  },
  follows: {
    intro: { intro: -1.55, 'build-up': -0.252, drop: -3.09, main: 1.77, breakdown: 0.87, outro: -6 },
    'build-up': { intro: -12, 'build-up': -2.21, drop: 1.63, main: -2.96, breakdown: -3.16, outro: -5.01 },
    drop: { intro: -12, 'build-up': -1.6, drop: -1.82, main: -0.138, breakdown: -1.42, outro: 0.148 },
    main: { intro: -12, 'build-up': 0.11, drop: -4.35, main: -1.02, breakdown: -0.0143, outro: 0.771 },
    breakdown: { intro: -12, 'build-up': 0.918, drop: -0.68, main: -2.55, breakdown: -0.991, outro: -2.04 },
    outro: { intro: -12, 'build-up': -12, drop: -12, main: -12, breakdown: -12, outro: -0.643 },
  },
};
