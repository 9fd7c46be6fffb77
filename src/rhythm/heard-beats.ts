import type { FrontEnd } from '../signal/index.js';
import type { Seconds } from '../units/index.js';
import type { HeardBeat } from './piecewise.js';
import { heaviest } from './steady-fit.js';
import { transientsNear } from './transients.js';

/** Beats of a window in which the commonest residual is looked for, and the distance of windows. */
const WINDOW = 32;
const STEP = 8;

/** Fewer transients than this say nothing about a window. */
const LEAST = 6;

/** Transients this close to the window's commonest residual belong to its beats. */
const NEAR: Seconds = 0.006;

/**
 * The beats that are heard as sudden rises where they are expected, without those of other instruments: in each window
 * the heaviest heap of residuals is kept.
 */
export function heardBeats(frontEnd: FrontEnd, expected: ArrayLike<Seconds>, near = NEAR): HeardBeat[] {
  const transients = transientsNear(frontEnd, expected);
  const residual = transients.map((t) => t.time - expected[t.beat]);
  const centres: number[] = [];
  for (let from = 0; from < expected.length; from += STEP) {
    const inside = transients
      .map((_, i) => i)
      .filter(
        (i) => transients[i].beat >= from - (WINDOW - STEP) / 2 && transients[i].beat < from + (WINDOW + STEP) / 2,
      );
    centres.push(
      inside.length < LEAST
        ? NaN
        : heaviest(
            inside.map((i) => residual[i]),
            inside.map((i) => Math.min(transients[i].rise, 20)),
          ),
    );
  }
  return transients
    .filter((t, i) => Math.abs(residual[i] - centres[Math.floor(t.beat / STEP)]) <= near)
    .map(({ beat, time }) => ({ beat, time }));
}
