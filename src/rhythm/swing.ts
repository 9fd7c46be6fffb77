import type { Fraction, Seconds } from '../units/index.js';
import { foldOn } from './beat-places.js';
import type { OnsetCurves } from './onsets.js';

/** Off-beat quavers are looked for here in the beat: from straight to beyond triplets. */
const EARLIEST: Fraction = 0.42;
const LATEST: Fraction = 0.74;
const STEPS = 96;

/** Least height of the off-beat's heap over the mean of the beat, and against the beat's own heap. */
const LEAST_OVER_MEAN = 1.25;
const LEAST_OF_BEAT = 0.12;

/**
 * Where off-beat quavers fall between beats: the heaviest place in the middle of the beat, onsets above 800 Hz folded on
 * it.
 * @returns 0.5 for straight quavers, about 0.67 for triplets, `null` where none stand out
 */
export function swingRatio(onsets: OnsetCurves, beats: readonly Seconds[]): Fraction | null {
  const [, , third, fourth] = onsets.bands;
  const fourths = foldOn(fourth, onsets, beats, STEPS);
  const fold = foldOn(third, onsets, beats, STEPS).map((sum, j) => sum + fourths[j]);
  const mean = fold.reduce((a, b) => a + b, 0) / STEPS;
  const onBeat = Math.max(...fold.slice(0, 4), ...fold.slice(-3));
  let best = Math.ceil(EARLIEST * STEPS);
  for (let j = best; j <= LATEST * STEPS; j++) if (fold[j] > fold[best]) best = j;
  if (!(fold[best] > LEAST_OVER_MEAN * mean) || fold[best] < LEAST_OF_BEAT * onBeat) return null;
  // A heap at the edge of the range is the semiquaver at ¾ or a flank of the beat, no quaver.
  if (best / STEPS > 0.71) return null;
  const [a, b, c] = [fold[best - 1], fold[best], fold[best + 1]];
  const bend = a - 2 * b + c;
  return (best + (bend < 0 ? (a - c) / (2 * bend) : 0)) / STEPS;
}
