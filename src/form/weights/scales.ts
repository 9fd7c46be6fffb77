import type { FunctionWeights } from '../functions.js';

/** How the decoder weighs the boundary scores against the costs of lengths, by the held-out folds of training. */
export const BOUNDARY_SCALES = {
  phraseScale: 2.04,
  phraseBias: -0.157,
  sectionScale: 0.772,
  sectionBias: 1.52,
} as const;

const NEVER = -12;

/** Steps between functions that are expected before any track is seen (common practice, no source). */
export const FUNCTION_STEPS: FunctionWeights['follows'] = {
  intro: { intro: -1, 'build-up': 0, drop: -2, main: 0, breakdown: -1, outro: -6 },
  'build-up': { intro: NEVER, 'build-up': -1.5, drop: 0.5, main: -2, breakdown: -3, outro: -5 },
  drop: { intro: NEVER, 'build-up': -1, drop: -3, main: 0, breakdown: 0, outro: 0 },
  main: { intro: NEVER, 'build-up': -0.5, drop: -4, main: -0.3, breakdown: 0, outro: 0 },
  breakdown: { intro: NEVER, 'build-up': 0, drop: 0, main: -1.5, breakdown: -1, outro: -2 },
  outro: { intro: NEVER, 'build-up': NEVER, drop: NEVER, main: NEVER, breakdown: NEVER, outro: -1 },
};
