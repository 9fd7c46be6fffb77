import type { BeatFeatures } from './beat-features.js';
import type { BeatRows } from './beat-rows.js';
import { DEPARTURE_NAMES, departures } from './departures.js';
import { modulo } from './modulo.js';
import { novelty, squaredPeaks, type NoveltySpan } from './novelty.js';

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

/** Curves of the cues that do not depend on the metre. */
const plain = new WeakMap<BeatFeatures, readonly Float64Array[]>();

/**
 * The cues of every beat (methods, stages 0 and 4).
 * @param rows descriptions of the beats, from `describeBeats`
 */
export function downbeatCues(f: BeatFeatures, rows: BeatRows, beatsPerBar: number): DownbeatCues {
  let curves = plain.get(f);
  if (!curves) plain.set(f, (curves = plainCurves(f).map(zScore)));
  return { count: f.count, curves: [...curves, ...departures(f, rows, beatsPerBar).map(zScore)] };
}

function plainCurves(f: BeatFeatures): Float64Array[] {
  const spectral = [f.columns, f.lowColumns].flatMap((used) => SPANS.map((span) => ({ used, span })));
  const tonal = CHROMA_SPANS.map((span) => ({ used: 12, span }));
  const peaks = (rows: Float64Array, columns: number, spans: readonly NoveltySpan[]) =>
    novelty(rows, columns, spans).map((curve, i) => squaredPeaks(curve, Math.min(spans[i].span, 3)));
  const quarters = [0, 1, 2, 3].map((q) => {
    const from = Math.round((q * f.columns) / 4);
    const to = Math.round(((q + 1) * f.columns) / 4);
    return columnSums(f, from, to);
  });
  return [
    ...peaks(f.spectrum, f.columns, spectral),
    ...peaks(f.chroma, 12, tonal),
    ...f.onBeat,
    ...f.offBeat,
    ...quarters,
  ];
}

/** Sums of some columns of the spectrum. */
function columnSums({ count, spectrum, columns }: BeatFeatures, from: number, to: number): Float64Array {
  const sums = new Float64Array(count);
  for (let b = 0; b < count; b++) {
    let sum = 0;
    for (let c = from; c < to; c++) sum += spectrum[b * columns + c];
    sums[b] = sum;
  }
  return sums;
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
  let sum = 0;
  for (let b = 0; b < curve.length; b++) sum += curve[b];
  const mean = sum / n;
  let squares = 0;
  for (let b = 0; b < curve.length; b++) squares += (curve[b] - mean) * (curve[b] - mean);
  const deviation = Math.sqrt(squares / n);
  const out = new Float64Array(curve.length);
  if (deviation > 0) for (let b = 0; b < curve.length; b++) out[b] = (curve[b] - mean) / deviation;
  return out;
}
