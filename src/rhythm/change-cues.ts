import type { Seconds } from '../units/index.js';
import { changeAt, type RunningFeatures } from './change-curves.js';

/** Spans before and after over which change is measured (beats). */
const SPANS = [1, 4, 16];
/** Places in the beat at which it is measured. */
const PLACES = [0, 1 / 4, 1 / 2, 3 / 4];
/** The lowest groups of bands: up to about 200 Hz. */
const LOW_COLUMNS = 2;

const FEATURES = ['spectral change', 'low spectral change', 'chroma change'];

/** Names of the cues, in the order of `changeCues`. */
export const CHANGE_CUES: readonly string[] = FEATURES.flatMap((f) =>
  SPANS.flatMap((s) => [
    ...PLACES.map((p) => `${f} over ${s} beats at ${p}`),
    `${f} over ${s} beats, every other`,
    `${f} over ${s} beats, every fourth`,
  ]),
);

/**
 * Music changes on beats, and most on the firsts of bars: how much change there is at each quarter of the beat, and how
 * unevenly it is shared between every second and every fourth beat.
 */
export function changeCues(spectrum: RunningFeatures, chroma: RunningFeatures, beats: ArrayLike<Seconds>): number[] {
  const out: number[] = [];
  const n = beats.length - 1;
  const period = n > 0 ? (beats[n] - beats[0]) / n : 0.5;
  for (const [features, columns] of [
    [spectrum, spectrum.columns],
    [spectrum, LOW_COLUMNS],
    [chroma, chroma.columns],
  ] as const) {
    for (const span of SPANS) {
      const at = PLACES.map(() => 0);
      const folded = [0, 0, 0, 0];
      for (let b = 0; b < n; b++) {
        PLACES.forEach((p, j) => {
          // Squared once more: a few great changes tell more than many small ones.
          const v = changeAt(features, beats[b] + p * (beats[b + 1] - beats[b]), span * period, columns) ** 2;
          at[j] += v;
          if (j === 0) folded[b & 3] += v;
        });
      }
      const mean = at.reduce((a, b) => a + b, 0) / PLACES.length + 1e-12;
      const total = at[0] + 1e-12;
      out.push(...at.map((v) => Math.log(0.02 + v / mean)));
      out.push(Math.max(folded[0] + folded[2], folded[1] + folded[3]) / total, Math.max(...folded) / total);
    }
  }
  return out;
}
