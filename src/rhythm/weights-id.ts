import { DOWNBEAT_WEIGHTS, LEVEL_WEIGHTS, ODD_BAR_WEIGHTS, PHASE_WEIGHTS } from '../learned/index.js';

/** Identity of the weights that the grid rests on. */
export const RHYTHM_WEIGHTS_ID = [LEVEL_WEIGHTS, PHASE_WEIGHTS, DOWNBEAT_WEIGHTS, ODD_BAR_WEIGHTS]
  .map(({ id }) => id)
  .join('+');
