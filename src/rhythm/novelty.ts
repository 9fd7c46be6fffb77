import { borrowKernels } from '../signal/index.js';

/** How a feature's novelty is measured. */
export interface NoveltySpan {
  /** The first so many columns count. */
  readonly used: number;
  /** Beats before and after. */
  readonly span: number;
}

/**
 * Change of a feature at each beat: squared distance between its means over the `span` beats before and after (a
 * checkerboard kernel reduced to its diagonal: Foote, "Automatic audio segmentation using a measure of audio novelty",
 * ICME 2000). Near the ends the spans shrink together; a short one is noisier and counts by the share that there is.
 * @param rows values row by row, `columns` a row
 * @returns a curve for each of the spans
 */
export function novelty(rows: Float64Array, columns: number, spans: readonly NoveltySpan[]): Float64Array[] {
  const n = Math.floor(rows.length / columns);
  const kernels = borrowKernels(8 * (rows.length + (n + 1) * columns + n));
  const [values, sums, out] = [kernels.doubles(rows), kernels.doubles((n + 1) * columns), kernels.doubles(n)];
  kernels.loops.summed(values.at, n, columns, columns, sums.at);
  return spans.map(({ used, span }) => {
    kernels.loops.departed(sums.at, n, columns, used, span, out.at);
    return out.view.slice();
  });
}

/** Keeps what is highest within ±reach beats, squared, and sets the rest to 0. */
export function squaredPeaks(curve: Float64Array, reach: number): Float64Array {
  const out = new Float64Array(curve.length);
  for (let i = 0; i < curve.length; i++) {
    const value = curve[i];
    let j = Math.max(0, i - reach);
    const last = Math.min(curve.length - 1, i + reach);
    while (j <= last && curve[j] <= value) j++;
    if (j > last) out[i] = value * value;
  }
  return out;
}
