/**
 * Change of a feature at each beat: squared distance between its means over the `span` beats before and after (a
 * checkerboard kernel reduced to its diagonal: Foote, "Automatic audio segmentation using a measure of audio novelty",
 * ICME 2000). Near the ends the spans shrink together.
 * @param rows values row by row, `columns` a row, of which the first `used` count
 */
export function novelty(rows: Float64Array, columns: number, used: number, span: number): Float64Array {
  const n = Math.floor(rows.length / columns);
  const sums = new Float64Array((n + 1) * used);
  for (let r = 0; r < n; r++) {
    for (let c = 0; c < used; c++) sums[(r + 1) * used + c] = sums[r * used + c] + rows[r * columns + c];
  }
  const out = new Float64Array(n);
  for (let r = 1; r < n; r++) {
    const k = Math.min(span, r, n - r);
    let d = 0;
    for (let c = 0; c < used; c++) {
      const before = sums[r * used + c] - sums[(r - k) * used + c];
      const after = sums[(r + k) * used + c] - sums[r * used + c];
      d += ((after - before) / k) ** 2;
    }
    // A short span near an end is noisier: it counts by the share of the span that exists.
    out[r] = (d * k) / span / used;
  }
  return out;
}

/** Keeps what is highest within ±reach beats, squared, and sets the rest to 0. */
export function squaredPeaks(curve: Float64Array, reach: number): Float64Array {
  return curve.map((v, i) => {
    for (let j = Math.max(0, i - reach); j <= Math.min(curve.length - 1, i + reach); j++) {
      if (curve[j] > v) return 0;
    }
    return v * v;
  });
}
