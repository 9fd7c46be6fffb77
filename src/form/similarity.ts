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
  const width = reach + 1;
  const values = new Float32Array(bars * width);
  let sum = 0;
  let pairs = 0;
  for (let i = 0; i < bars; i++) {
    for (let lag = 1; lag <= reach && i + lag < bars; lag++) {
      let d = 0;
      for (let c = 0; c < columns; c++) {
        const diff = x[i * columns + c] - x[(i + lag) * columns + c];
        d += diff * diff;
      }
      values[i * width + lag] = d / columns;
      sum += d / columns;
      pairs++;
    }
  }
  const scale = sum > 0 ? pairs / sum : 0;
  for (let i = 0; i < values.length; i++) values[i] = Math.exp(-values[i] * scale);
  return { values, bars, reach };
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
  const { bars } = similarity;
  const out = new Float64Array(bars);
  for (let b = 1; b < bars; b++) {
    const h = Math.min(half, b, bars - b);
    let sum = 0;
    for (let i = -h; i < h; i++)
      for (let j = -h; j < h; j++) sum += (i < 0 === j < 0 ? 1 : -1) * similarityAt(similarity, b + i, b + j);
    out[b] = sum * (half / h) ** 2;
  }
  return out;
}
