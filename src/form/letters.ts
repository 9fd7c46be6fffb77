import { borrowKernels } from '../signal/index.js';
import { PARTS, type BarFeatures, type Part } from './bars.js';

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
  const scale = Float64Array.from(PARTS, (p) => meanDistance(features, p));
  const distances = distancesOf(features);
  const likeness = (i: number, j: number) =>
    meanLikeness(samples[i], samples[j], distances(samples[i], samples[j]), scale);
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

/** Squared distances of some bars to others in every part, part after part for each two; good until the next are asked for. */
type Distances = (some: readonly number[], others: readonly number[]) => Float64Array;

/** The parts are in the loops' memory while the sections of a track are compared. */
function distancesOf(features: BarFeatures): Distances {
  const parts = PARTS.map((part) => features[part]);
  const size = parts.reduce((sum, { values }) => sum + values.length, 0);
  const kernels = borrowKernels(4 * size + 8 * SAMPLED * SAMPLED * PARTS.length + 8 * SAMPLED + 16 * PARTS.length);
  const rooms = parts.map(({ values }) => kernels.floats(values.length));
  rooms.forEach(({ view }, k) => view.set(parts[k].values));
  const [a, b] = [kernels.integers(SAMPLED), kernels.integers(SAMPLED)];
  const out = kernels.doubles(SAMPLED * SAMPLED * PARTS.length);
  return (some, others) => {
    a.view.set(some);
    b.view.set(others);
    parts.forEach(({ columns }, k) =>
      kernels.loops.apart(rooms[k].at, columns, a.at, some.length, b.at, others.length, PARTS.length, out.at + 8 * k),
    );
    return out.view;
  };
}

/** Mean of exp(−distance / scale) over the parts of all pairs of different bars. */
function meanLikeness(
  some: readonly number[],
  others: readonly number[],
  distances: Float64Array,
  scale: Float64Array,
): number {
  let sum = 0;
  let count = 0;
  for (let i = 0, at = 0; i < some.length; i++) {
    for (let j = 0; j < others.length; j++, at += scale.length) {
      if (some[i] === others[j]) continue;
      for (let k = 0; k < scale.length; k++) sum += Math.exp(-distances[at + k] / scale[k]);
      count += scale.length;
    }
  }
  return count > 0 ? sum / count : 1;
}

/** Mean squared distance of bars a few apart: the scale on which alike is judged. */
function meanDistance(features: BarFeatures, part: Part): number {
  let sum = 0;
  let n = 0;
  const { values, columns } = features[part];
  for (let b = 0; b < features.bars; b++) {
    for (let k = 0; k < LAGS.length && b + LAGS[k] < features.bars; k++, n++)
      sum += distance(values, b * columns, (b + LAGS[k]) * columns, columns);
  }
  return n > 0 && sum > 0 ? sum / n : 1;
}

function distance(values: Float32Array, a: number, b: number, columns: number): number {
  let d = 0;
  for (let c = 0; c < columns; c++) {
    const off = values[a + c] - values[b + c];
    d += off * off;
  }
  return d;
}
