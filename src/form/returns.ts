import { similarityAt, type BandedSimilarity } from './similarity.js';

/** Bars of a passage that is looked for elsewhere in the track. */
const PASSAGE = 4;

/** What comes back: for each bar, how well a passage that begins there is matched elsewhere, and how new the match is. */
export interface Returns {
  /** Largest gain of likeness, over all other places, of the bars from b on against the bars before b. */
  readonly begins: Float64Array;
  /** The same the other way round: a likeness that ends at b. */
  readonly ends: Float64Array;
  /** Likeness of the four bars from b to their best match elsewhere. */
  readonly known: Float64Array;
}

/**
 * Looks for passages that return (repeated diagonals of the self-similarity matrix; Goto, "A chorus section detection
 * method for musical audio signals", 2006, is the idea): where a diagonal begins or ends, something starts.
 * @param similarity mean over the parts; places further apart than its reach are not compared
 */
export function findReturns(similarity: BandedSimilarity): Returns {
  const { bars, reach } = similarity;
  const begins = new Float64Array(bars);
  const ends = new Float64Array(bars);
  const known = new Float64Array(bars);
  for (let lag = PASSAGE; lag <= reach && lag < bars; lag++) {
    // Sums along the diagonal: likeness of bars i and i + lag.
    const sums = new Float64Array(bars - lag + 1);
    for (let i = 0; i + lag < bars; i++) sums[i + 1] = sums[i] + similarityAt(similarity, i, i + lag);
    for (let a = PASSAGE; a + lag + PASSAGE <= bars; a++) {
      const after = (sums[a + PASSAGE] - sums[a]) / PASSAGE;
      const before = (sums[a] - sums[a - PASSAGE]) / PASSAGE;
      raise(begins, a, lag, after - before);
      raise(ends, a, lag, before - after);
      raise(known, a, lag, after);
    }
  }
  return { begins, ends, known };
}

/** Raises both places of a diagonal to a value. */
function raise(curve: Float64Array, a: number, lag: number, value: number): void {
  if (value > curve[a]) curve[a] = value;
  if (value > curve[a + lag]) curve[a + lag] = value;
}

/** Mean of several similarities of one size. */
export function meanSimilarity(all: readonly BandedSimilarity[]): BandedSimilarity {
  const values = new Float32Array(all[0].values.length);
  for (const s of all) addShare(values, s.values, all.length);
  return { ...all[0], values };
}

function addShare(out: Float32Array, values: Float32Array, of: number): void {
  for (let i = 0; i < out.length; i++) out[i] += values[i] / of;
}
