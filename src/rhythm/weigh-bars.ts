import type { BeatFeatures } from './beat-features.js';
import type { BeatRows } from './beat-rows.js';
import { downbeatCues } from './downbeat-cues.js';
import { downbeatEvidence, phaseScores } from './downbeat-evidence.js';
import { weighMetres } from './metre.js';

/** The metres of some beats, and what speaks for a bar starting on each beat in the likeliest of them. */
export interface WeighedBars {
  readonly metres: readonly { readonly beatsPerBar: number; readonly weight: number }[];
  readonly beatsPerBar: number;
  readonly evidence: Float64Array;
}

/**
 * Metre and ones together: where two metres are close, the one in which the ones are clearer is likelier.
 * @param rows descriptions of the beats, from `describeBeats`
 * @param told beats a bar, where somebody has said it
 */
export function weighBars(features: BeatFeatures, rows: BeatRows, told?: number): WeighedBars {
  const known = new Map<number, Float64Array>();
  const evidenceIn = (beatsPerBar: number) => {
    let evidence = known.get(beatsPerBar);
    if (!evidence) {
      evidence = downbeatEvidence(downbeatCues(features, rows, beatsPerBar), beatsPerBar);
      known.set(beatsPerBar, evidence);
    }
    return evidence;
  };
  const metres = weighMetres(features, told, (m) => clearness(evidenceIn(m), m));
  const [{ beatsPerBar }] = metres;
  return { metres, beatsPerBar, evidence: evidenceIn(beatsPerBar) };
}

/** How clear the ones are: the score of the likeliest phase of the bars (nats). */
export function clearness(evidence: Float64Array, beatsPerBar: number): number {
  return Math.max(...phaseScores(evidence, beatsPerBar));
}
