import type { Seconds } from '../units/index.js';
import { TIMES, type RunningFeatures } from './change-curves.js';

/** Spans before and after over which change is measured (beats). */
const SPANS = [1, 4, 16];
/** Places in the beat at which it is measured: four, as the loops below count on. */
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
  const places = placesOf(beats);
  const at = new Float64Array(PLACES.length);
  const folded = new Float64Array(4);
  for (const [features, columns] of [
    [spectrum, spectrum.columns],
    [spectrum, LOW_COLUMNS],
    [chroma, chroma.columns],
  ] as const) {
    for (const span of SPANS) {
      addChanges(features, columns, places, span * period, at, folded);
      const mean = (at[0] + at[1] + at[2] + at[3]) / PLACES.length + 1e-12;
      const total = at[0] + 1e-12;
      for (let j = 0; j < at.length; j++) out.push(Math.log(0.02 + at[j] / mean));
      out.push(
        Math.max(folded[0] + folded[2], folded[1] + folded[3]) / total,
        Math.max(folded[0], folded[1], folded[2], folded[3]) / total,
      );
    }
  }
  return out;
}

/** The times at which change is measured: `PLACES` in each beat. */
function placesOf(beats: ArrayLike<Seconds>): Float64Array {
  const count = Math.max(0, beats.length - 1);
  const times = new Float64Array(count * PLACES.length);
  for (let b = 0, i = 0; b < count; b++)
    for (let p = 0; p < PLACES.length; p++, i++) times[i] = beats[b] + PLACES[p] * (beats[b + 1] - beats[b]);
  return times;
}

/**
 * How much a feature changes at each time, squared distance of its means over `span` before and after: summed for each place of
 * the beat, and on beats for each of four in turn. Squared once more: a few great changes tell more than many small ones.
 * @param used only the first so many columns count
 */
function addChanges(
  { kernels, sums, rows, columns, rate, start, times: room, few }: RunningFeatures,
  used: number,
  times: Float64Array,
  span: Seconds,
  at: Float64Array,
  folded: Float64Array,
): void {
  few.view.fill(0);
  for (let from = 0; from < times.length; from += TIMES) {
    const part = times.subarray(from, from + TIMES);
    room.view.set(part);
    kernels.loops.changing(sums.at, rows, columns, used, rate, start, room.at, part.length, span, few.at, few.at + 32);
  }
  at.set(few.view.subarray(0, 4));
  folded.set(few.view.subarray(4));
}
