import type { Fraction, Seconds } from '../units/index.js';
import { nearest } from './matching.js';
import { metricalVariations } from './variations.js';

/** Longest correct stretch and correct share, at the annotated metrical level and at any allowed one. @experimental */
export interface Continuity {
  readonly cmlc: Fraction;
  readonly cmlt: Fraction;
  readonly amlc: Fraction;
  readonly amlt: Fraction;
}

/** How far a beat may be off, and an interval too long or short, as a share of the annotated interval. */
const TOLERANCE = 0.175;

/**
 * Continuity-based beat scores: Hainsworth, "Techniques for the automated analysis of musical audio", 2004; Klapuri,
 * Eronen & Astola, IEEE TASLP 2006; the definitions are those of mir_eval. A beat is correct when both its place and the
 * interval before it are within 17.5 % of the annotated interval.
 * @experimental
 */
export function continuity(reference: readonly Seconds[], estimate: readonly Seconds[]): Continuity {
  if (reference.length < 2 || estimate.length < 2) return { cmlc: 0, cmlt: 0, amlc: 0, amlt: 0 };
  const scores = metricalVariations(reference).map((beats) => correctness(beats, estimate));
  return {
    cmlc: scores[0].longest,
    cmlt: scores[0].total,
    amlc: Math.max(...scores.map((s) => s.longest)),
    amlt: Math.max(...scores.map((s) => s.total)),
  };
}

function correctness(
  reference: readonly Seconds[],
  estimate: readonly Seconds[],
): { longest: Fraction; total: Fraction } {
  if (reference.length < 2) return { longest: 0, total: 0 };
  const used = new Uint8Array(reference.length);
  let run = 0;
  let longest = 0;
  let total = 0;
  for (let m = 0; m < estimate.length; m++) {
    const n = nearest(reference, estimate[m]);
    const correct = used[n] === 0 && isCorrect(reference, n, estimate, m);
    if (correct) {
      used[n] = 1;
      total++;
    }
    run = correct ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  const all = Math.max(reference.length, estimate.length);
  return { longest: longest / all, total: total / all };
}

/** The first beat of either list has no interval before it and takes the one after it. */
function isCorrect(reference: readonly Seconds[], n: number, estimate: readonly Seconds[], m: number): boolean {
  const first = m === 0 || n === 0;
  const interval = (beats: readonly Seconds[], i: number) =>
    first && i + 1 < beats.length ? beats[i + 1] - beats[i] : beats[i] - beats[i - 1];
  const annotated = interval(reference, n);
  const phase = Math.abs(estimate[m] - reference[n]) / annotated;
  const period = Math.abs(1 - interval(estimate, m) / annotated);
  return phase < TOLERANCE && period < TOLERANCE;
}
