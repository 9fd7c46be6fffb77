import { PARTS, type BarFeatures } from './bars.js';

/** Sections whose bars are at least this much as alike across as within share a letter. */
const SAME = 0.72;

/** Bars compared a section, spread over it, so that cost does not grow with length. */
const SAMPLED = 16;

/** A letter for each section in order of first appearance; those that sound alike share one. After Z comes A2. */
export function sectionLetters(features: BarFeatures, starts: readonly number[]): string[] {
  const ends = [...starts.slice(1), features.bars];
  const samples = starts.map((s, i) => sampled(s, ends[i]));
  const scale = PARTS.map((p) => meanDistance(features, p));
  const likeness = (i: number, j: number) => {
    let sum = 0;
    let pairs = 0;
    for (const a of samples[i])
      for (const b of samples[j]) {
        if (a === b) continue;
        for (let k = 0; k < PARTS.length; k++) sum += Math.exp(-distance(features, PARTS[k], a, b) / scale[k]);
        pairs += PARTS.length;
      }
    return pairs > 0 ? sum / pairs : 1;
  };
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

function distance(features: BarFeatures, part: (typeof PARTS)[number], a: number, b: number): number {
  const { values, columns } = features[part];
  let d = 0;
  for (let c = 0; c < columns; c++) d += (values[a * columns + c] - values[b * columns + c]) ** 2;
  return d;
}

/** Mean squared distance of bars a few apart: the scale on which alike is judged. */
function meanDistance(features: BarFeatures, part: (typeof PARTS)[number]): number {
  let sum = 0;
  let n = 0;
  for (let b = 0; b < features.bars; b++)
    for (const lag of [1, 3, 7, 16, 31])
      if (b + lag < features.bars) {
        sum += distance(features, part, b, b + lag);
        n++;
      }
  return n > 0 && sum > 0 ? sum / n : 1;
}
