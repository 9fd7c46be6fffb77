import { BOUNDARY_WEIGHTS, LAYER_WEIGHTS, PLAN_WEIGHTS } from '../../../src/form/weights/index.js';
import { CALIBRATIONS, DOWNBEAT_WEIGHTS, LEVEL_WEIGHTS, PHASE_WEIGHTS } from '../../../src/learned/index.js';

/**
 * Everything that is fitted on songs. Whoever adds fitted weights to the analysis adds them here and in grid-folds.ts or form-folds.ts, or the
 * held-out figures would be told by weights that have seen the songs.
 */
export const FITTED = {
  level: LEVEL_WEIGHTS as object,
  phase: PHASE_WEIGHTS as object,
  downbeat: DOWNBEAT_WEIGHTS as object,
  layers: LAYER_WEIGHTS as object,
  boundaries: BOUNDARY_WEIGHTS as object,
  plan: PLAN_WEIGHTS as object,
  calibrations: CALIBRATIONS as object,
} as const;

/** Fitted numbers that are not held out, and why. */
export const NOT_HELD_OUT: Readonly<Record<string, string>> = {
  FUNCTION_WEIGHTS: 'fitted on arranged tracks alone',
  PRESENCE_WEIGHTS: 'fitted on songs, but phrases and sections do not rest on it, only layers told and irregularities',
  DRIVING_BASS_WEIGHTS: 'fitted on songs, but only passages without a beat rest on it',
  PICK_UP_WEIGHTS: 'fitted on arranged tracks and played styles alone',
  STRUCK_WEIGHTS: 'fitted on songs among others, but only passages without a beat rest on it',
  ODD_BAR_WEIGHTS:
    'fourteen numbers, fitted mostly on edits of songs and played styles; no song of its own has an odd bar',
  FUNCTION_STEPS: 'not fitted',
  BOUNDARY_SCALES: 'four numbers, chosen on all songs',
  LENGTH_COSTS: 'a dozen numbers, chosen on all songs',
};

/** Confidences as the stages have them: the lines that are shipped were fitted on all songs. */
export const UNCALIBRATED = Object.fromEntries(
  Object.keys(CALIBRATIONS).map((name) => [name, { slope: 1, offset: 0 }]),
);

/** Weights by name; what is missing stays as shipped. */
export type FoldWeights = Readonly<Partial<Record<keyof typeof FITTED, object>>>;

const shipped = structuredClone(FITTED) as Record<keyof typeof FITTED, object>;

/**
 * Puts other weights in the place of the shipped ones in this process, so that the analysis runs from end to end without
 * knowing of folds. Only for processes that do nothing but evaluate.
 */
export function useWeights(weights: FoldWeights | null): void {
  for (const name of Object.keys(FITTED) as (keyof typeof FITTED)[])
    Object.assign(FITTED[name], shipped[name], weights?.[name] ?? {});
}
