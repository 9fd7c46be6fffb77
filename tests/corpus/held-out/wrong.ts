import { BEAT_WINDOW, median, nearestTime, type Estimate, type Truth } from '../../../src/evaluation/index.js';

/** A tempo, phase or downbeat this near is right. */
const NEAR_TEMPO = 0.04;
const NEAR_BEAT = 0.17;
/** More beats than a bar too many or too few are worth a word. */
const EDGE = 4;

/** Names the first thing of a grid that is wrong, because what follows rests on it; empty when nothing is. */
export function whatIsWrong(truth: Truth, estimate: Estimate): string {
  if (truth.bpm === null || estimate.bpm === null || estimate.beats === null) return '';
  const ratio = estimate.bpm / truth.bpm;
  if (Math.abs(ratio - 1) > NEAR_TEMPO) return `tempo × ${ratio.toFixed(2)}`;
  const period = 60 / truth.bpm;
  const beat = shiftOf(truth.beats, estimate.beats, period);
  if (Math.abs(beat) * period > BEAT_WINDOW) return `beats off by ${beat.toFixed(2)}`;
  if (!estimate.downbeats || truth.downbeats.length === 0) return edges(truth.beats, estimate.beats, period);
  const bars = Math.round(median(intervals(estimate.downbeats)) / period);
  const trueBars = Math.round(median(intervals(truth.downbeats)) / period);
  const downbeat = shiftOf(truth.downbeats, estimate.downbeats, period);
  if (bars !== trueBars && Number.isFinite(bars)) return `bars of ${bars} beats, in truth of ${trueBars}`;
  if (Math.abs(downbeat) > NEAR_BEAT) return `ones off by ${downbeat.toFixed(0)} beats`;
  return edges(truth.beats, estimate.beats, period);
}

/** Beats beyond those of the truth, or short of them. */
function edges(truth: readonly number[], beats: readonly number[], period: number): string {
  const late = beats.filter((t) => t > truth[truth.length - 1] + period / 2).length;
  const early = beats.filter((t) => t < truth[0] - period / 2).length;
  const missing = truth.filter((t) => t > beats[beats.length - 1] + period / 2).length;
  const said = [
    late > EDGE ? `${late} beats after the last true one` : '',
    early > EDGE ? `${early} beats before the first true one` : '',
    missing > EDGE ? `ends ${missing} beats early` : '',
  ];
  return said.filter((text) => text !== '').join(', ');
}

function intervals(times: readonly number[]): number[] {
  return times.slice(1).map((t, i) => t - times[i]);
}

/** Median distance of estimated events from the nearest true one, in beats; its sign, positive when late, is that of most. */
function shiftOf(reference: readonly number[], estimate: readonly number[], period: number): number {
  if (estimate.length === 0) return 0;
  const shifts = estimate.map((t) => (t - nearestTime(reference, t)) / period);
  const size = median(shifts.map(Math.abs));
  return median(shifts) < 0 ? -size : size;
}
