import { borrowKernels } from '../signal/index.js';
import type { BandedSimilarity } from './similarity.js';

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
  const { values, bars, reach } = similarity;
  const kernels = borrowKernels(4 * values.length + 8 * (4 * bars + 1));
  const band = kernels.floats(values.length);
  const [begins, ends, known, sums] = [bars, bars, bars, bars + 1].map((length) => kernels.doubles(length));
  band.view.set(values);
  kernels.loops.returning(band.at, bars, reach, PASSAGE, sums.at, begins.at, ends.at, known.at);
  return { begins: begins.view.slice(), ends: ends.view.slice(), known: known.view.slice() };
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
