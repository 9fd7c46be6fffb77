import { borrowKernels } from '../signal/index.js';
import { PARTS, type BarFeatures, type Part } from './bars.js';
import { setSimilarity } from './similarity.js';

/** Bars are compared up to this far apart: kernels need 31, passages that return a few minutes. */
const REACH = 256;

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

/** What the self-similarities of the parts of bars tell. */
export interface ComparedParts {
  /** Checkerboard novelty of each part and half-size over its most, 2 · half². */
  readonly novelty: Readonly<Record<Part, readonly Float64Array[]>>;
  /** How unlike its three forerunners the bar before each bar is, against how alike those are: a fill or a gap. */
  readonly breaks: Readonly<Record<Part, Float64Array>>;
  readonly returns: Returns;
}

/**
 * Compares the bars of a track in all parts. Similarities as by `bandedSimilarity`, novelty as by `checkerboard`, but all in the
 * memory of the loops. Passages that return are repeated diagonals of the mean over the parts (Goto, "A chorus section
 * detection method for musical audio signals", 2006, is the idea): where a diagonal begins or ends, something starts.
 * @param halves half-sizes of the checkerboard in bars
 */
export function comparedParts(features: BarFeatures, halves: readonly number[]): ComparedParts {
  const { bars } = features;
  const reach = Math.min(REACH, Math.max(bars - 1, 1));
  const widest = Math.max(...PARTS.map((part) => features[part].values.length));
  const kernels = borrowKernels(4 * (widest + 2 * bars * (reach + 1)) + 8 * (5 * bars + 1));
  const { loops } = kernels;
  const rows = kernels.floats(widest);
  const [band, mean] = [bars * (reach + 1), bars * (reach + 1)].map((length) => kernels.floats(length));
  const [out, sums] = [kernels.doubles(bars), kernels.doubles(bars + 1)];
  const [begins, ends, known] = [0, 1, 2].map(() => kernels.doubles(bars));
  const novelty = {} as Record<Part, Float64Array[]>;
  const breaks = {} as Record<Part, Float64Array>;
  for (const part of PARTS) {
    const { values, columns } = features[part];
    rows.view.set(values);
    // What lies beyond the last bar is the same in every part.
    band.view.fill(0);
    setSimilarity(kernels, rows.at, columns, bars, reach, band);
    novelty[part] = halves.map((half) => {
      out.view.fill(0);
      loops.contrast(band.at, bars, reach, half, out.at);
      return over(out.view, 2 * half * half);
    });
    out.view.fill(0);
    loops.breaks(band.at, bars, reach, out.at);
    breaks[part] = out.view.slice();
    loops.addShares(mean.at, band.at, band.view.length, PARTS.length);
  }
  loops.returning(mean.at, bars, reach, PASSAGE, sums.at, begins.at, ends.at, known.at);
  return {
    novelty,
    breaks,
    returns: { begins: begins.view.slice(), ends: ends.view.slice(), known: known.view.slice() },
  };
}

function over(curve: Float64Array, most: number): Float64Array {
  const out = new Float64Array(curve.length);
  for (let b = 0; b < out.length; b++) out[b] = curve[b] / most;
  return out;
}
