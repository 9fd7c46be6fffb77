import { BEAT_WEIGHTS, DOWNBEAT_WEIGHTS } from '../learned/index.js';

/** Identity of the weights that the grid rests on. */
export const RHYTHM_WEIGHTS_ID = `${BEAT_WEIGHTS.id}+${DOWNBEAT_WEIGHTS.id}`;
