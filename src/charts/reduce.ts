import type { CurveSet, Seconds } from '../units/index.js';

/** A stretch of time. */
export interface TimeRange {
  readonly from: Seconds;
  readonly to: Seconds;
}

/** One column of a curve set, reduced to at most `pixels` points. */
export interface ReducedCurve {
  readonly times: readonly Seconds[];
  readonly values: readonly number[];
}

/**
 * The maximum of a column in each of at most `pixels` equal stretches of time: peaks survive, whatever the length.
 * Where the curve has fewer values than pixels it is given as it is.
 */
export function reduceMaximum(curve: CurveSet, column: number, range: TimeRange, pixels: number): ReducedCurve {
  const first = Math.max(0, Math.ceil((range.from - curve.start) * curve.rate - 1e-6));
  const last = Math.min(curve.rows - 1, Math.floor((range.to - curve.start) * curve.rate + 1e-6));
  const rows = Math.max(0, last - first + 1);
  const step = Math.max(1, rows / Math.max(1, pixels));
  const times: number[] = [];
  const values: number[] = [];
  for (let at = 0; at < rows; at += step) {
    const begin = first + Math.floor(at);
    const end = Math.min(last + 1, Math.max(begin + 1, first + Math.floor(at + step)));
    let largest = -Infinity;
    for (let r = begin; r < end; r++) largest = Math.max(largest, curve.values[r * curve.columns + column]);
    times.push(curve.start + (begin + end - 1) / 2 / curve.rate);
    values.push(largest);
  }
  return { times, values };
}

/** The value that a share of the values does not exceed; 0 for an empty list. @param share from 0 to 1 */
export function quantile(values: Float32Array | readonly number[], share: number): number {
  if (values.length === 0) return 0;
  const sorted = Float32Array.from(values).sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}
