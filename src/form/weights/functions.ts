import type { SectionFunction } from '../../units/index.js';
import type { FunctionWeights } from '../functions.js';

const NEVER = -12;

/** In the order of FUNCTION_CUES. */
const cues: Record<SectionFunction, readonly number[]> = {
  intro: [-3, 5, -3, 0, -1, 0, -1, -1, 0, 0, 0, 0.5, 0, 0, 0, 0, -6],
  'build-up': [-1.5, -2, -6, -1.5, -1.5, 0.5, 0, -2, 0, -1, 3, 2, 0, 0, 2, 1, 0],
  drop: [-3, -4, -2, 1, 1, 0.5, 0, 3, 2, 1, 0, -1, -3, 2, 0, -0.5, 0],
  main: [-2, -1, -2, 1, 1, 0.5, 0, 3, 1, 1, 0, 0, 0.5, 0, 0, -0.5, 0],
  breakdown: [0, -2, -3, -3, -1, -1, 1, -3, -1, -2, 0, 0.5, 1, -1, 0, 0, 0],
  outro: [-4, -4, 5, 0, 0, 0, -1, -1, 0, 0, -1, -1, 1, -0.5, -1, 0, 3],
};

const follows: FunctionWeights['follows'] = {
  intro: { intro: -1, 'build-up': 0, drop: -2, main: 0, breakdown: -1, outro: -6 },
  'build-up': { intro: NEVER, 'build-up': -1.5, drop: 0.5, main: -2, breakdown: -3, outro: -5 },
  drop: { intro: NEVER, 'build-up': -1, drop: -3, main: 0, breakdown: 0, outro: 0 },
  main: { intro: NEVER, 'build-up': -0.5, drop: -4, main: -0.3, breakdown: 0, outro: 0 },
  breakdown: { intro: NEVER, 'build-up': 0, drop: 0, main: -1.5, breakdown: -1, outro: -2 },
  outro: { intro: NEVER, 'build-up': NEVER, drop: NEVER, main: NEVER, breakdown: NEVER, outro: -1 },
};

/** Weights of the section functions. */
export const FUNCTION_WEIGHTS: FunctionWeights = { cues, follows };
