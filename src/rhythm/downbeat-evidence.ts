import { DOWNBEAT_WEIGHTS, type LogitWeights } from '../learned/index.js';
import type { DownbeatCues } from './downbeat-cues.js';

/** Metre for which the weights were fitted. */
const FITTED = 4;

/**
 * How much speaks for a bar starting on each beat. The whole-track choice is linear in its cues, so its score for a phase
 * is the mean of these over the beats of that phase, and they serve bar by bar where a track changes its phase.
 * For other metres than four the weights of the beats after the first are averaged: the one against the rest.
 */
export function downbeatEvidence(
  cues: DownbeatCues,
  beatsPerBar: number,
  model: LogitWeights = DOWNBEAT_WEIGHTS,
): Float64Array {
  const out = new Float64Array(cues.count);
  cues.curves.forEach((curve, c) => {
    const fitted = Array.from(
      { length: FITTED },
      (_, k) => model.weights[c * FITTED + k] / model.scale[c * FITTED + k],
    );
    const rest = fitted.slice(1).reduce((a, b) => a + b, 0) / (beatsPerBar - 1);
    for (let k = 0; k < beatsPerBar; k++) {
      const w = (beatsPerBar === FITTED ? fitted[k] : k === 0 ? fitted[0] : rest) / model.temperature;
      addAhead(out, curve, k, w);
    }
  });
  return out;
}

/** Adds what a curve is `ahead` beats later. */
function addAhead(out: Float64Array, curve: ArrayLike<number>, ahead: number, weight: number): void {
  for (let b = 0; b + ahead < out.length; b++) out[b] += weight * curve[b + ahead];
}

/** The score of each phase 0…beatsPerBar − 1: the mean evidence of its beats. */
export function phaseScores(evidence: Float64Array, beatsPerBar: number): number[] {
  return Array.from({ length: beatsPerBar }, (_, phase) => {
    let sum = 0;
    let n = 0;
    for (let b = phase; b < evidence.length; b += beatsPerBar) {
      sum += evidence[b];
      n++;
    }
    return n > 0 ? sum / n : 0;
  });
}
