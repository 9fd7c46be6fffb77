import type { FrontEnd } from '../signal/index.js';
import type { CurveSet, Decibels, Seconds } from '../units/index.js';

/** A transient is looked for this far on either side of where a beat is expected (methods, stage 3). */
const REACH: Seconds = 0.03;

/** Rise of energy is measured between the 4 ms before and the 4 ms from each instant. */
const RISE_MS = 4;

/** Smaller rises are noise. */
const LEAST_RISE: Decibels = 6;

/** A sudden rise of energy near an expected beat. */
export interface Transient {
  /** Index of the expected beat. */
  readonly beat: number;
  readonly time: Seconds;
  readonly rise: Decibels;
}

/** The largest sudden rise near each expected time, where one is heard, to a fraction of a millisecond. */
export function transientsNear(frontEnd: FrontEnd, expected: ArrayLike<Seconds>, reach: Seconds = REACH): Transient[] {
  const { values, columns, rows, rate } = frontEnd.fine;
  const floor = meanOf(frontEnd.fine) * 1e-3 + 1e-12;
  const found: Transient[] = [];
  for (let beat = 0; beat < expected.length; beat++) {
    const from = Math.max(RISE_MS, Math.round((expected[beat] - reach) * rate));
    const to = Math.min(rows - RISE_MS, Math.round((expected[beat] + reach) * rate));
    const best = steepest(values, columns, from, to, floor);
    if (best < 0) continue;
    const decibels = 10 * Math.log10(Math.max(riseRatio(values, columns, best, floor), 1e-9));
    if (decibels >= LEAST_RISE) found.push({ beat, time: best / rate, rise: decibels });
  }
  return found;
}

/** The row of the largest rise among some, −1 where nothing rises. */
function steepest(values: Float32Array, columns: number, from: number, to: number, floor: number): number {
  let best = -1;
  let bestRise = 0;
  for (let i = from; i <= to; i++) {
    const after = energyFrom(values, columns, i, floor);
    const ratio = after / energyFrom(values, columns, i - 1, floor, -1);
    // Among equal ratios the louder rise is meant: a tick before a kick must not win.
    const rise = Math.min(ratio, 1000) * Math.sqrt(after);
    if (rise > bestRise) {
      best = i;
      bestRise = rise;
    }
  }
  return best;
}

function riseRatio(values: Float32Array, columns: number, i: number, floor: number): number {
  return energyFrom(values, columns, i, floor) / energyFrom(values, columns, i - 1, floor, -1);
}

/** Energy of RISE_MS rows from one on, or back from it, above a floor. */
function energyFrom(values: Float32Array, columns: number, row: number, floor: number, step: 1 | -1 = 1): number {
  let sum = floor;
  for (let k = 0; k < RISE_MS; k++) sum += values[(row + step * k) * columns];
  return sum;
}

const means = new WeakMap<CurveSet, number>();

/** Mean of the first column: once a track, however often beats are looked for in it. */
function meanOf(fine: CurveSet): number {
  let mean = means.get(fine);
  if (mean === undefined) means.set(fine, (mean = columnMean(fine.values, fine.columns)));
  return mean;
}

function columnMean(values: Float32Array, columns: number): number {
  let sum = 0;
  for (let i = 0; i < values.length; i += columns) sum += values[i];
  return (sum * columns) / Math.max(values.length, 1);
}
