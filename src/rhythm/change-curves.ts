import type { FrontEnd } from '../signal/index.js';
import type { Hertz, Seconds } from '../units/index.js';
import type { LogPowers } from './log-powers.js';

/** Running sums of a few features over time, so that the mean over any stretch costs nothing. */
export interface RunningFeatures {
  readonly columns: number;
  readonly rows: number;
  readonly rate: Hertz;
  readonly start: Seconds;
  /** sums[r * columns + c]: sum of rows before r. */
  readonly sums: Float64Array;
}

/** Rows that are read together. */
const BLOCK_ROWS = 2048;

/** Columns of the coarse bands that are put together to one. */
const GROUP = 4;

/** Log powers in a dozen bands. */
export function runningSpectrum(frontEnd: FrontEnd, logs: LogPowers): RunningFeatures {
  const { columns, rows, rate, start } = frontEnd.bands;
  const groups = Math.ceil(columns / GROUP);
  const sums = new Float64Array((rows + 1) * groups);
  for (let from = 0; from < rows; from += BLOCK_ROWS)
    addGroups(logs.read(from, Math.min(rows, from + BLOCK_ROWS)), columns, sums, from * groups);
  return { columns: groups, rows, rate, start, sums };
}

/** Goes on with running sums, whose last row stands at `before`, by the means of each group of columns. */
function addGroups(values: Float32Array, columns: number, sums: Float64Array, before: number): void {
  let to = before + Math.ceil(columns / GROUP);
  for (let row = 0; row < values.length; row += columns) {
    for (let c = 0; c < columns; before++, to++) {
      let sum = sums[before];
      for (const last = Math.min(c + GROUP, columns); c < last; c++) sum += values[row + c] / GROUP;
      sums[to] = sum;
    }
  }
}

/** Amplitude per pitch class, each row scaled to sum 1. */
export function runningChroma(frontEnd: FrontEnd): RunningFeatures {
  const { columns, rows, rate, start, values } = frontEnd.chroma;
  const sums = new Float64Array((rows + 1) * columns);
  for (let r = 0; r < rows; r++) {
    let total = 1e-9;
    for (let c = 0; c < columns; c++) total += Math.sqrt(values[r * columns + c]);
    for (let c = 0; c < columns; c++) {
      sums[(r + 1) * columns + c] = sums[r * columns + c] + Math.sqrt(values[r * columns + c]) / total;
    }
  }
  return { columns, rows, rate, start, sums };
}

/**
 * How much a feature changes at an instant: squared distance of its means over `span` before and after.
 * @param columns only the first so many count
 */
export function changeAt(f: RunningFeatures, time: Seconds, span: Seconds, columns = f.columns): number {
  const x = Math.round((time - f.start) * f.rate);
  const k = Math.max(1, Math.round(span * f.rate));
  const from = Math.max(0, x - k);
  const to = Math.min(f.rows, x + k);
  if (x - from < k / 2 || to - x < k / 2) return 0;
  const { sums } = f;
  const at = x * f.columns;
  const first = from * f.columns;
  const last = to * f.columns;
  let sum = 0;
  for (let c = 0; c < columns; c++) {
    const middle = sums[at + c];
    const d = (sums[last + c] - middle) / (to - x) - (middle - sums[first + c]) / (x - from);
    sum += d * d;
  }
  return sum;
}
