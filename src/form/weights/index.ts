import type { BoundaryWeights } from '../boundary-scores.js';
import { BOUNDARY_MODELS } from './boundaries.js';
import { BOUNDARY_SCALES } from './scales.js';

export { LAYER_WEIGHTS } from './layers.js';
export { DRIVING_BASS_WEIGHTS } from './driving-bass.js';
export { PRESENCE_WEIGHTS } from './presence.js';
export { FUNCTION_WEIGHTS } from './functions.js';
export { PICK_UP_WEIGHTS } from './pick-ups.js';
export { PLAN_WEIGHTS } from './plan.js';
export { BOUNDARY_SCALES, FUNCTION_STEPS } from './scales.js';
export { STRUCK_WEIGHTS } from './struck.js';
export { LENGTH_COSTS } from './lengths.js';

/** Identity of the fitted numbers of the form; changes whenever one of them does. */
export const FORM_WEIGHTS_ID = 'form21';

/** Scores of boundaries and how they are weighed. */
export const BOUNDARY_WEIGHTS: BoundaryWeights = { ...BOUNDARY_MODELS, ...BOUNDARY_SCALES };
