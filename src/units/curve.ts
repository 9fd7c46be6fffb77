import type { Hertz, Seconds } from './quantities.js';

/** A curve over time: evenly spaced values with their rate beside them. @public */
export interface Curve {
  readonly values: Float32Array;
  /** Values a second. */
  readonly rate: Hertz;
  /** Time of `values[0]`. */
  readonly start: Seconds;
}

/** Several curves on one clock, row by row: the value of column `c` in row `r` is `values[r * columns + c]`. @public */
export interface CurveSet {
  readonly values: Float32Array;
  readonly columns: number;
  readonly rows: number;
  /** Rows a second. */
  readonly rate: Hertz;
  /** Time of row 0. */
  readonly start: Seconds;
}

/** Index of the value nearest to a time, clamped to the curve. @public */
export function indexAt(curve: { rate: Hertz; start: Seconds }, length: number, time: Seconds): number {
  const i = Math.round((time - curve.start) * curve.rate);
  return Math.min(Math.max(i, 0), Math.max(length - 1, 0));
}
