import type { FrontEnd } from '../signal/index.js';
import type { TrackAnalysis } from '../track/index.js';

/** What speaks for a beat of the bar being the first one. @experimental */
export type OneCue = 'bass begins' | 'harmony changes' | 'sound changes';
/** Every cue, in the order of the chart. @experimental */
export const ONE_CUES: readonly OneCue[] = ['bass begins', 'harmony changes', 'sound changes'];

/**
 * For each beat of the bar as it is counted, from 1: how strong each cue is on it, and the weight of the reading.
 * @experimental
 */
export interface OneReading {
  /** The beat, as counted now, that would be the one. */
  readonly beat: number;
  /** Mean strength of each cue on this beat, less the mean over all beats, in standard deviations of the beats' means. */
  readonly cues: Readonly<Record<OneCue, number>>;
  /** Weight of this reading from 0 to 1; `null` where the analysis did not weigh it. */
  readonly weight: number | null;
}

/**
 * The evidence for each reading of the one: level below 150 Hz in the beat against the beat before, change of the chroma
 * over the beat line, and change of the whole spectrum over it, averaged by beat of the bar. Bars of another length than
 * the metre's are left out.
 * @experimental
 */
export function oneEvidence(
  frontEnd: Pick<FrontEnd, 'bands' | 'chroma' | 'fine'>,
  analysis: TrackAnalysis,
): OneReading[] {
  const { beatsPerBar } = analysis.metre;
  const sums = ONE_CUES.map(() => new Array<number>(beatsPerBar).fill(0));
  let counted = 0;
  let first = 0;
  for (const bar of analysis.bars) {
    const inside = first;
    first += bar.beats;
    const times = analysis.beats.slice(inside - 1, inside + beatsPerBar + 1);
    if (bar.beats !== beatsPerBar || inside < 1 || times.length < beatsPerBar + 2) continue;
    counted++;
    for (let b = 0; b < beatsPerBar; b++) {
      const [before, at, after] = times.slice(b, b + 3);
      sums[0][b] += Math.log2(
        (power(frontEnd.fine, 1, at, after) + FLOOR) / (power(frontEnd.fine, 1, before, at) + FLOOR),
      );
      sums[1][b] += distance(profile(frontEnd.chroma, before, at), profile(frontEnd.chroma, at, after));
      sums[2][b] += distance(profile(frontEnd.bands, before, at), profile(frontEnd.bands, at, after));
    }
  }
  const scores = sums.map((perBeat) => standardised(perBeat.map((sum) => (counted > 0 ? sum / counted : 0))));
  return Array.from({ length: beatsPerBar }, (_, b) => ({
    beat: b + 1,
    cues: Object.fromEntries(ONE_CUES.map((cue, i) => [cue, scores[i][b]])) as Record<OneCue, number>,
    weight: weightOf(analysis, b),
  }));
}

const FLOOR = 1e-9;

function weightOf({ downbeat, metre }: TrackAnalysis, shift: number): number | null {
  const of = downbeat.alternatives.filter(
    ({ shiftBeats }) => ((shiftBeats % metre.beatsPerBar) + metre.beatsPerBar) % metre.beatsPerBar === shift,
  );
  if (of.length > 0) return of.reduce((sum, { weight }) => sum + weight, 0);
  return null;
}

interface Rows {
  readonly values: Float32Array;
  readonly columns: number;
  readonly rows: number;
  readonly rate: number;
  readonly start: number;
}

function rowsBetween({ rows, rate, start }: Rows, from: number, to: number): [number, number] {
  const first = Math.min(rows - 1, Math.max(0, Math.round((from - start) * rate)));
  return [first, Math.min(rows, Math.max(first + 1, Math.round((to - start) * rate)))];
}

function power(curve: Rows, column: number, from: number, to: number): number {
  const [first, last] = rowsBetween(curve, from, to);
  let sum = 0;
  for (let r = first; r < last; r++) sum += curve.values[r * curve.columns + column];
  return sum / (last - first);
}

/** Mean amplitudes of the columns, as shares of their sum. */
function profile(curve: Rows, from: number, to: number): Float64Array {
  const [first, last] = rowsBetween(curve, from, to);
  const means = new Float64Array(curve.columns);
  for (let r = first; r < last; r++)
    for (let c = 0; c < curve.columns; c++) means[c] += Math.sqrt(curve.values[r * curve.columns + c]);
  const sum = means.reduce((a, b) => a + b, 0);
  return sum > 0 ? means.map((mean) => mean / sum) : means;
}

/** Half the sum of the differences: 0 for the same profile, 1 for profiles without a column in common. */
function distance(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, value, c) => sum + Math.abs(value - b[c]), 0) / 2;
}

function standardised(values: readonly number[]): number[] {
  const mean = values.reduce((a, b) => a + b, 0) / Math.max(values.length, 1);
  const deviation = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(values.length, 1));
  return values.map((value) => (deviation > 1e-12 ? (value - mean) / deviation : 0));
}
