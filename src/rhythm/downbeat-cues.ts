import type { BeatFeatures } from './beat-features.js';
import { DEPARTURE_NAMES, departures } from './departures.js';
import { modulo } from './modulo.js';
import { novelty, squaredPeaks } from './novelty.js';

/** Spans of beats over which change is measured. */
const SPANS = [1, 2, 4, 8, 16, 32];
const CHROMA_SPANS = [1, 2, 4, 8];

/** Cues of each beat that tell whether a bar starts on it: one curve a cue, mean 0 and variance 1 over the track. */
export interface DownbeatCues {
  readonly count: number;
  readonly curves: readonly Float64Array[];
}

/** Names of the cues of one beat, in the order of the curves. */
export const BEAT_CUE_NAMES: readonly string[] = [
  ...SPANS.map((s) => `spectral change over ${s} beats`),
  ...SPANS.map((s) => `low spectral change over ${s} beats`),
  ...CHROMA_SPANS.map((s) => `chroma change over ${s} beats`),
  ...[0, 1, 2, 3, 4, 5].map((b) => `onset on the beat, band ${b}`),
  ...[0, 1, 2, 3, 4, 5].map((b) => `onset between beats, band ${b}`),
  ...[0, 1, 2, 3].map((b) => `power, quarter ${b} of the spectrum`),
  ...DEPARTURE_NAMES,
];

/**
 * The cues of every beat (methods, stages 0 and 4).
 * @param rows descriptions of the beats, from `describeBeats`
 */
export function downbeatCues(f: BeatFeatures, rows: readonly Float64Array[], beatsPerBar: number): DownbeatCues {
  const peaks = (rows: Float64Array, columns: number, used: number, span: number) =>
    squaredPeaks(novelty(rows, columns, used, span), Math.min(span, 3));
  const quarters = [0, 1, 2, 3].map((q) => {
    const from = Math.round((q * f.columns) / 4);
    const to = Math.round(((q + 1) * f.columns) / 4);
    return Float64Array.from({ length: f.count }, (_, b) => {
      let sum = 0;
      for (let c = from; c < to; c++) sum += f.spectrum[b * f.columns + c];
      return sum;
    });
  });
  const curves = [
    ...SPANS.map((s) => peaks(f.spectrum, f.columns, f.columns, s)),
    ...SPANS.map((s) => peaks(f.spectrum, f.columns, f.lowColumns, s)),
    ...CHROMA_SPANS.map((s) => peaks(f.chroma, 12, 12, s)),
    ...f.onBeat,
    ...f.offBeat,
    ...quarters,
    ...departures(f, rows, beatsPerBar),
  ];
  return { count: f.count, curves: curves.map(zScore) };
}

/** Names of the folded cues, in the order of `foldedCues`. */
export function foldedCueNames(beatsPerBar: number): string[] {
  return BEAT_CUE_NAMES.flatMap((name) => Array.from({ length: beatsPerBar }, (_, k) => `${name}, ${k} after`));
}

/** Means of every cue over the beats that would be 1, 2, … of the bar if bars started on beats ≡ phase. */
export function foldedCues(cues: DownbeatCues, beatsPerBar: number, phase: number): number[] {
  return cues.curves.flatMap((curve) => {
    const sums = new Array<number>(beatsPerBar).fill(0);
    const counts = new Array<number>(beatsPerBar).fill(0);
    for (let b = 0; b < curve.length; b++) {
      const place = modulo(b - phase, beatsPerBar);
      sums[place] += curve[b];
      counts[place]++;
    }
    return sums.map((s, k) => s / Math.max(counts[k], 1));
  });
}

function zScore(curve: Float64Array): Float64Array {
  const n = Math.max(curve.length, 1);
  const mean = curve.reduce((a, b) => a + b, 0) / n;
  const deviation = Math.sqrt(curve.reduce((a, b) => a + (b - mean) ** 2, 0) / n);
  return curve.map((v) => (deviation > 0 ? (v - mean) / deviation : 0));
}
