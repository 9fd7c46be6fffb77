import { borrowKernels } from '../signal/index.js';
import { PARTS, type BarFeatures } from './bars.js';

/** Sections whose bars are at least this much as alike across as within share a letter. */
const SAME = 0.72;

/** Bars compared a section, spread over it, so that cost does not grow with length. */
const SAMPLED = 16;

/** Bars so far apart tell how alike the bars of the track are at all. */
const LAGS = [1, 3, 7, 16, 31];

/** A letter for each section in order of first appearance; those that sound alike share one. After Z comes A2. */
export function sectionLetters(features: BarFeatures, starts: readonly number[]): string[] {
  const ends = [...starts.slice(1), features.bars];
  const samples = starts.map((s, i) => sampled(s, ends[i]));
  const alike = createLikeness(features);
  const likeness = (i: number, j: number) => alike(samples[i], samples[j]);
  const within = starts.map((_, i) => likeness(i, i));
  const letters: number[] = [];
  let used = 0;
  starts.forEach((_, i) => {
    let best = -1;
    let value = SAME;
    for (let j = 0; j < i; j++) {
      const ratio = likeness(i, j) / Math.sqrt(within[i] * within[j]);
      if (ratio > value) {
        value = ratio;
        best = letters[j];
      }
    }
    letters.push(best >= 0 ? best : used++);
  });
  return letters.map((n) => String.fromCharCode(65 + (n % 26)) + (n < 26 ? '' : `${Math.floor(n / 26) + 1}`));
}

function sampled(from: number, to: number): number[] {
  const n = Math.min(SAMPLED, to - from);
  return Array.from({ length: n }, (_, i) => from + Math.floor(((i + 0.5) * (to - from)) / n));
}

/** How alike some bars are to others, from 0 to 1: the mean of exp(−distance / scale) over the parts of all pairs of different bars. */
type Likeness = (some: readonly number[], others: readonly number[]) => number;

/** The parts are in the loops' memory while the sections of a track are compared. */
function createLikeness(features: BarFeatures): Likeness {
  const parts = PARTS.map((part) => features[part]);
  const size = parts.reduce((sum, { values }) => sum + values.length, 0);
  const kernels = borrowKernels(4 * size + 8 * SAMPLED * SAMPLED * PARTS.length + 8 * SAMPLED + 1024);
  const { loops } = kernels;
  const rooms = parts.map(({ values }) => kernels.floats(values.length));
  rooms.forEach(({ view }, k) => view.set(parts[k].values));
  const [lags, sums] = [kernels.integers(LAGS).at, kernels.doubles(2)];
  // Mean squared distance of bars a few apart: the scale on which alike is judged.
  const scales = kernels.doubles(
    parts.map(({ columns }, k) => {
      loops.distances(rooms[k].at, columns, features.bars, lags, LAGS.length, sums.at);
      const [sum, pairs] = sums.view;
      return pairs > 0 && sum > 0 ? sum / pairs : 1;
    }),
  ).at;
  const [a, b] = [kernels.integers(SAMPLED), kernels.integers(SAMPLED)];
  const out = kernels.doubles(SAMPLED * SAMPLED * PARTS.length).at;
  return (some, others) => {
    a.view.set(some);
    b.view.set(others);
    parts.forEach(({ columns }, k) =>
      loops.apart(rooms[k].at, columns, a.at, some.length, b.at, others.length, PARTS.length, out + 8 * k),
    );
    return loops.meanCloseness(out, a.at, some.length, b.at, others.length, scales, PARTS.length);
  };
}
