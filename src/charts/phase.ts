import type { FrontEnd } from '../signal/index.js';
import type { CurveSet, Seconds } from '../units/index.js';

/**
 * Onset energy at each position between one beat and the next, summed over the track: column 0 low, 1 all.
 * @experimental
 */
export interface PhaseHistogram {
  readonly bins: number;
  /** Share of each bin of the energy below 150 Hz and of all energy; each sums to 1. */
  readonly low: readonly number[];
  readonly all: readonly number[];
}

/** 24 positions part straight quavers, triplets and semiquavers. @experimental */
export const PHASE_BINS = 24;

/** Energies are averaged over this many milliseconds before and after a moment: a cycle of the lowest kick is longer. */
const RISE = 12;

/**
 * Folds the rises of the one-millisecond energies on the beats. A grid that lies well has its peak at 0.
 * @param beats seconds, ascending
 */
export function phaseHistogram({ fine }: FrontEnd, beats: readonly Seconds[]): PhaseHistogram {
  const low = new Array<number>(PHASE_BINS).fill(0);
  const all = new Array<number>(PHASE_BINS).fill(0);
  const sums = { all: runningSums(fine, 0), low: runningSums(fine, 1) };
  for (let b = 0; b + 1 < beats.length; b++) {
    const period = beats[b + 1] - beats[b];
    const first = Math.max(RISE, Math.ceil((beats[b] - period / PHASE_BINS / 2 - fine.start) * fine.rate));
    const last = Math.min(
      fine.rows - RISE,
      Math.ceil((beats[b + 1] - period / PHASE_BINS / 2 - fine.start) * fine.rate),
    );
    for (let r = first; r < last; r++) {
      const time = fine.start + (r - 0.5) / fine.rate;
      const position = Math.round(((time - beats[b]) / period) * PHASE_BINS);
      const bin = ((position % PHASE_BINS) + PHASE_BINS) % PHASE_BINS;
      all[bin] += rise(sums.all, r);
      low[bin] += rise(sums.low, r);
    }
  }
  return { bins: PHASE_BINS, low: shares(low), all: shares(all) };
}

/** The rise of the amplitude at a row: the mean over the rows after it less the mean over those before. */
function rise(sums: Float64Array, row: number): number {
  const before = sums[row] - sums[row - RISE];
  const after = sums[row + RISE] - sums[row];
  return Math.max(0, Math.sqrt(after / RISE) - Math.sqrt(before / RISE));
}

/** Running sums of a column: entry r is the sum of rows 0…r − 1. */
function runningSums({ values, columns, rows }: CurveSet, column: number): Float64Array {
  const sums = new Float64Array(rows + 1);
  for (let r = 0; r < rows; r++) sums[r + 1] = sums[r] + values[r * columns + column];
  return sums;
}

function shares(values: readonly number[]): number[] {
  const sum = values.reduce((a, b) => a + b, 0);
  return values.map((v) => (sum > 0 ? v / sum : 0));
}
