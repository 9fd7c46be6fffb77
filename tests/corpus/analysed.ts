import { estimateOfForm, type Estimate, type TimedLayer } from '../../src/evaluation/index.js';
import { findForm } from '../../src/form/index.js';
import { findGrid } from '../../src/rhythm/index.js';
import type { FrontEnd } from '../../src/signal/index.js';
import { refused } from './song.js';

/** Grid and form by the weights that are shipped; an estimate of nothing where no beat is found. */
export function analysed(frontEnd: FrontEnd): { said: Estimate; events: readonly TimedLayer[] } {
  try {
    const grid = findGrid(frontEnd);
    const form = findForm(frontEnd, grid);
    return { said: estimateOfForm(grid, form), events: form.events };
  } catch (error) {
    return { said: refused(error).estimate, events: [] };
  }
}
