import type { FrontEnd } from '../signal/index.js';
import type { Seconds } from '../units/index.js';
import type { BeatFeatures } from './beat-features.js';
import type { LogPowers } from './log-powers.js';

/** Music repeats after these numbers of bars, whatever else it does. */
const REPEATS_IN_BARS = [2, 4, 8, 16];
/** A beat is described by its spectrum in quarters, in groups of so many bands. */
const QUARTERS = 4;
const BANDS_IN_GROUP = 4;
/** Fewer comparable beats than this say nothing. */
const LEAST = 8;

/**
 * How much better the music from a beat on repeats what came before when `missing` beats (negative: surplus ones) are
 * taken to lie before it: the sum over the beats that follow of likeness gained, in units of cosine similarity. In
 * music that just goes on it is far below zero; at an edit it is about as large as the number of beats that repeat.
 */
export type SlipEvidence = (beat: number, missing: number) => number;

/**
 * After an edit of k beats, what repeats every L beats repeats after L − k for a while: the two lags are compared beat by
 * beat. Measured with repeats of 4, 8 and 16 bars on edits of one and two beats made in 76 songs and synthetic tracks: the largest value lies on the edit,
 * with the right count, in 60; the largest of an unedited track is below 8 in all but 3 of 93.
 */
export function slipEvidence(
  frontEnd: FrontEnd,
  logs: LogPowers,
  features: BeatFeatures,
  beats: ArrayLike<Seconds>,
  beatsPerBar: number,
): SlipEvidence {
  const rows = describeBeats(frontEnd, logs, features, beats);
  const likeness = new Map<number, Float64Array>();
  const at = (lag: number) => {
    if (!likeness.has(lag)) likeness.set(lag, likenessAt(rows, lag));
    return likeness.get(lag)!;
  };
  const sums = new Map<number, Float64Array>();
  const gained = (lag: number, missing: number) => {
    // One number for both: no slip is as long as the lag.
    const key = 2 * lag * lag + missing;
    let sum = sums.get(key);
    if (!sum) {
      sum = runningDifference(at(lag - missing), at(lag));
      sums.set(key, sum);
    }
    return sum;
  };
  return (beat, missing) => {
    let total = 0;
    for (const bars of REPEATS_IN_BARS) {
      const lag = bars * beatsPerBar;
      const sum = gained(lag, missing);
      const from = Math.max(beat, lag, lag - missing);
      const to = Math.min(rows.length, beat + lag - Math.max(0, missing));
      if (to - from >= LEAST) total += sum[to] - sum[from];
    }
    return total;
  };
}

/** One vector of length 1 a beat: log spectrum in four quarters of the beat, and chroma, each against the track's own mean. */
function describeBeats(
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

/** Cosine similarity of each beat with the one `lag` before it; 0 where there is none. */
function likenessAt(rows: readonly Float64Array[], lag: number): Float64Array {
  return Float64Array.from(rows, (row, b) => {
    const earlier = rows[b - lag];
    if (!earlier) return 0;
    let sum = 0;
    for (let d = 0; d < row.length; d++) sum += row[d] * earlier[d];
    return sum;
  });
}

function runningDifference(a: Float64Array, b: Float64Array): Float64Array {
  const sum = new Float64Array(a.length + 1);
  for (let i = 0; i < a.length; i++) sum[i + 1] = sum[i] + a[i] - b[i];
  return sum;
}
