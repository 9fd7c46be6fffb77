import { borrowKernels, type FrontEnd } from '../signal/index.js';
import type { Seconds } from '../units/index.js';
import type { BeatFeatures } from './beat-features.js';
import type { BeatRows } from './beat-rows.js';
import type { LogPowers } from './log-powers.js';

/** A beat is described by its spectrum in quarters, in groups of so many bands. */
const QUARTERS = 4;
const BANDS_IN_GROUP = 4;
/** Rows of the front end that are read at a time; a quarter of a beat has fewer. */
const MOST_ROWS = 128;

/** A row of length 1 a beat: log spectrum in four quarters of the beat, and chroma, each against the track's own mean. */
export function describeBeats(
  { bands }: FrontEnd,
  logs: LogPowers,
  features: BeatFeatures,
  beats: ArrayLike<Seconds>,
): BeatRows {
  const { columns, rate, start } = bands;
  const { count } = features;
  const groups = Math.ceil(columns / BANDS_IN_GROUP);
  const width = QUARTERS * groups + 12;
  const kernels = borrowKernels(8 * width * (count + 2) + 4 * columns * MOST_ROWS);
  const rows = kernels.doubles(count * width);
  const few = kernels.doubles(2 * width);
  const room = kernels.floats(columns * MOST_ROWS);
  for (let b = 0; b < count; b++) {
    const row = rows.at + 8 * b * width;
    for (let q = 0; q < QUARTERS; q++) {
      const length = (beats[b + 1] - beats[b]) / QUARTERS;
      const from = Math.ceil((beats[b] + q * length - start) * rate);
      const to = Math.max(from + 1, Math.ceil((beats[b] + (q + 1) * length - start) * rate));
      const last = Math.min(to, bands.rows);
      for (let r = Math.max(from, 0); r < last; r += MOST_ROWS) {
        const most = Math.min(MOST_ROWS, last - r);
        room.view.set(logs.read(r, r + most));
        kernels.loops.gathered(room.at, most, columns, BANDS_IN_GROUP, (to - from) * BANDS_IN_GROUP, row + 8 * q * groups); // prettier-ignore
      }
    }
    rows.view.set(features.chroma.subarray(b * 12, b * 12 + 12), b * width + QUARTERS * groups);
  }
  kernels.loops.standardised(rows.at, count, width, few.at);
  return { values: rows.view.slice(), count, stride: width, width };
}
