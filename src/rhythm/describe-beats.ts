import type { FrontEnd } from '../signal/index.js';
import type { Seconds } from '../units/index.js';
import type { BeatFeatures } from './beat-features.js';
import type { LogPowers } from './log-powers.js';

/** A beat is described by its spectrum in quarters, in groups of so many bands. */
const QUARTERS = 4;
const BANDS_IN_GROUP = 4;

/** One vector of length 1 a beat: log spectrum in four quarters of the beat, and chroma, each against the track's own mean. */
export function describeBeats(
  { bands }: FrontEnd,
  logs: LogPowers,
  features: BeatFeatures,
  beats: ArrayLike<Seconds>,
): Float64Array[] {
  const groups = Math.ceil(bands.columns / BANDS_IN_GROUP);
  const width = QUARTERS * groups + 12;
  const rows: Float64Array[] = [];
  for (let b = 0; b < features.count; b++) {
    const row = new Float64Array(width);
    for (let q = 0; q < QUARTERS; q++) {
      const length = (beats[b + 1] - beats[b]) / QUARTERS;
      const from = Math.ceil((beats[b] + q * length - bands.start) * bands.rate);
      const to = Math.max(from + 1, Math.ceil((beats[b] + (q + 1) * length - bands.start) * bands.rate));
      const [first, last] = [Math.max(from, 0), Math.min(to, bands.rows)];
      if (first < last) addGroups(logs.read(first, last), bands.columns, (to - from) * BANDS_IN_GROUP, row, q * groups);
    }
    for (let c = 0; c < 12; c++) row[QUARTERS * groups + c] = features.chroma[b * 12 + c];
    rows.push(row);
  }
  return standardised(rows, width);
}

/** Adds the rows to groups of columns, each value over `share`. */
function addGroups(values: Float32Array, columns: number, share: number, out: Float64Array, at: number): void {
  for (let row = 0; row < values.length; row += columns) {
    for (let c = 0, group = at; c < columns; group++) {
      let sum = out[group];
      for (const last = Math.min(c + BANDS_IN_GROUP, columns); c < last; c++) sum += values[row + c] / share;
      out[group] = sum;
    }
  }
}

/** Each column to mean 0 and deviation 1 over the track, then each row to length 1. */
function standardised(rows: Float64Array[], width: number): Float64Array[] {
  const count = Math.max(rows.length, 1);
  const means = new Float64Array(width);
  const deviations = new Float64Array(width);
  for (const row of rows) for (let d = 0; d < width; d++) means[d] += row[d];
  for (let d = 0; d < width; d++) means[d] /= count;
  for (const row of rows) {
    for (let d = 0; d < width; d++) {
      row[d] -= means[d];
      deviations[d] += row[d] * row[d];
    }
  }
  for (let d = 0; d < width; d++) deviations[d] = Math.sqrt(deviations[d] / count + 1e-6);
  for (const row of rows) for (let d = 0; d < width; d++) row[d] /= deviations[d];
  for (const row of rows) {
    const length = Math.hypot(...row) || 1;
    for (let d = 0; d < width; d++) row[d] /= length;
  }
  return rows;
}
