import { softmax } from '../learned/index.js';
import type { BeatFeatures } from './beat-features.js';
import { withClearness } from './close-scores.js';

/** Metres that are weighed, in beats a bar. */
export const METRES: readonly number[] = [4, 3, 5, 7];

const LONGEST = 16;

/**
 * Strokes that differ by less than this share of their mean do not differ: ten milliseconds a row make equal strokes look a
 * little unlike, in a pattern that a bare kick at 138.5 BPM repeats every three beats.
 */
const EQUAL_STROKES = 0.2;

/**
 * How alike beats are that lie 1…16 apart, from −1 to 1: the correlation of their onset strengths, chroma and spectra
 * (a beat-synchronous autocorrelation, as in Gainza & Coyle, "Time signature detection by using a multi-resolution audio
 * similarity matrix", AES 122, 2007). Index 0 is lag 1.
 */
export function beatSimilarity(f: BeatFeatures): number[] {
  const strokes = [...f.onBeat, ...f.offBeat].map(capped);
  const rows = strokes.map(centred);
  const floor = EQUAL_STROKES ** 2 * strokes.reduce((sum, row) => sum + mean(row) ** 2, 0);
  return Array.from({ length: LONGEST }, (_, i) => {
    const lag = i + 1;
    const sums = new Float64Array([0, floor * Math.max(f.count - lag, 0)]);
    for (const row of rows) addLikeness(row, lag, f.count, sums);
    return sums[1] > 0 ? sums[0] / sums[1] : 0;
  });
}

/** Adds the products of values `lag` apart, and what they would be if both were alike. */
function addLikeness(row: Float64Array, lag: number, count: number, sums: Float64Array): void {
  let product = sums[0];
  let norm = sums[1];
  for (let b = 0; b + lag < count; b++) {
    const x = row[b];
    const y = row[b + lag];
    product += x * y;
    norm += (x * x + y * y) / 2;
  }
  sums[0] = product;
  sums[1] = norm;
}

/** Mean similarity at the multiples of a metre that are no multiples of any other, against the mean of all lags. */
export function metreEvidence(similarity: readonly number[]): { beatsPerBar: number; evidence: number }[] {
  const usual = mean(similarity);
  return METRES.map((m) => {
    const lags = Array.from({ length: LONGEST }, (_, i) => i + 1).filter(
      (l) => l % m === 0 && METRES.every((o) => o === m || l % o !== 0),
    );
    return {
      beatsPerBar: m,
      evidence: lags.reduce((s, l) => s + similarity[l - 1], 0) / Math.max(lags.length, 1) - usual,
    };
  });
}

function capped(curve: Float64Array): Float64Array {
  return curve.map((v) => Math.sqrt(Math.max(v, 0)));
}

function centred(curve: Float64Array): Float64Array {
  const middle = mean(curve);
  return curve.map((v) => v - middle);
}

function mean(values: ArrayLike<number>): number {
  return values.length > 0 ? Array.from(values).reduce((a, b) => a + b, 0) / values.length : 0;
}

/** Scores of the metres before the evidence: four beats are by far the commonest (common practice, no source). */
const PRIOR: Readonly<Record<number, number>> = { 4: 4, 3: 0, 5: -1, 7: -2 };
/** Score for one unit of evidence; both by 130 plain rhythms (tests/corpus/plain-rhythms) and the development songs. */
const SLOPE = 25;

/** What the clearness of its ones is worth to a metre, in nats a nat (docs/decisions.md, 44). */
const ONES = 0.4;

/**
 * Every metre with its weight, the likeliest first; a person's word settles it.
 * @param clearness how clear the ones are in bars of so many beats (nats)
 */
export function weighMetres(
  f: BeatFeatures,
  told: number | undefined,
  clearness: (beatsPerBar: number) => number,
): { beatsPerBar: number; weight: number }[] {
  if (told !== undefined) return [{ beatsPerBar: told, weight: 1 }];
  const evidence = metreEvidence(beatSimilarity(f));
  const scores = evidence.map((e) => SLOPE * e.evidence + (PRIOR[e.beatsPerBar] ?? 0));
  const weights = softmax(withClearness(scores, ONES, (i) => clearness(evidence[i].beatsPerBar)));
  const metres = evidence.map((e, i) => ({ beatsPerBar: e.beatsPerBar, weight: weights[i] }));
  return metres.sort((a, b) => b.weight - a.weight);
}
