import { borrowKernels, type Kernels, type Room } from '../signal/index.js';
import type { BarVectors } from './bars.js';

/** Similarity of bars i and j = i + lag for 0 ≤ lag ≤ reach, from 0 to 1: `values[i * (reach + 1) + lag]`. */
export interface BandedSimilarity {
  readonly values: Float32Array;
  readonly bars: number;
  readonly reach: number;
}

/**
 * Self-similarity of bars near the diagonal, exp(−d²/σ²) with d the distance of two bars' vectors and σ² the mean d² of
 * the band (after the barwise RBF similarity of Marmoret et al., TISMIR 2023). A track that never changes is all 1.
 * @param reach largest distance in bars
 */
export function bandedSimilarity({ values: x, columns }: BarVectors, bars: number, reach: number): BandedSimilarity {
  const kernels = borrowKernels(4 * (x.length + bars * (reach + 1)));
  const [rows, out] = [kernels.floats(x.length), kernels.floats(bars * (reach + 1))];
  rows.view.set(x);
  setSimilarity(kernels, rows.at, columns, bars, reach, out);
  return { values: out.view.slice(), bars, reach };
}

/** The same in the memory of the loops. */
export function setSimilarity(
  { loops }: Kernels,
  rows: number,
  columns: number,
  bars: number,
  reach: number,
  out: Room<Float32Array>,
): void {
  const sum = loops.differences(rows, columns, bars, reach, out.at);
  const far = Math.min(reach, Math.max(bars - 1, 0));
  const pairs = far * bars - (far * (far + 1)) / 2;
  loops.closeness(out.at, out.view.length, sum > 0 ? pairs / sum : 0);
}

/** Similarity of two bars no further apart than the reach. */
export function similarityAt({ values, reach }: BandedSimilarity, i: number, j: number): number {
  return i <= j ? values[i * (reach + 1) + (j - i)] : values[j * (reach + 1) + (i - j)];
}

/**
 * Checkerboard novelty (Foote, ICME 2000) without taper: the sum of similarities inside the `half` bars before and inside
 * the `half` bars after, minus those across. On an ideal two-block 0/1 matrix it is 2·half² at the boundary and 0 inside
 * a block. At the ends the kernel is cut symmetrically and the value scaled up to the full size.
 * @returns one value a bar: the novelty between bar b − 1 and bar b; 0 for b = 0
 */
export function checkerboard(similarity: BandedSimilarity, half: number): Float64Array {
  const { values, bars, reach } = similarity;
  const kernels = borrowKernels(4 * values.length + 8 * bars);
  const [band, out] = [kernels.floats(values.length), kernels.doubles(bars)];
  band.view.set(values);
  kernels.loops.contrast(band.at, bars, reach, half, out.at);
  return out.view.slice();
}
