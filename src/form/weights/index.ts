export { LAYER_WEIGHTS } from './layers.js';
export { BOUNDARY_WEIGHTS } from './boundaries.js';
export { FUNCTION_WEIGHTS } from './functions.js';
export { PICK_UP_WEIGHTS } from './pick-ups.js';
export { LENGTH_COSTS } from './lengths.js';

/** Identity of the fitted numbers of the form; changes whenever one of them does. */
export const FORM_WEIGHTS_ID = 'form6';
