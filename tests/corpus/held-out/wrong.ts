import { median, nearestTime, type Estimate, type Truth } from '../../../src/evaluation/index.js';

/** A tempo, phase or downbeat this near is right. */
const NEAR_TEMPO = 0.04;
const NEAR_BEAT = 0.17;

/** Names the first thing of a grid that is wrong, because what follows rests on it; empty when nothing is. */
export function whatIsWrong(truth: Truth, estimate: Estimate): string {
  if (truth.bpm === null || estimate.bpm === null || estimate.beats === null) return '';
  const ratio = estimate.bpm / truth.bpm;
  if (Math.abs(ratio - 1) > NEAR_TEMPO) return `tempo × ${ratio.toFixed(2)}`;
  const period = 60 / truth.bpm;
  const beat = shiftOf(truth.beats, estimate.beats, period);
  if (Math.abs(beat) > NEAR_BEAT) return `beats off by ${beat.toFixed(2)}`;
  if (!estimate.downbeats || truth.downbeats.length === 0) return '';
  const downbeat = shiftOf(truth.downbeats, estimate.downbeats, period);
  return Math.abs(downbeat) > NEAR_BEAT ? `ones off by ${downbeat.toFixed(0)} beats` : '';
}

/** Median distance of estimated events from the nearest true one, in beats; positive when late. */
function shiftOf(reference: readonly number[], estimate: readonly number[], period: number): number {
  if (estimate.length === 0) return 0;
  return median(estimate.map((t) => (t - nearestTime(reference, t)) / period));
}
