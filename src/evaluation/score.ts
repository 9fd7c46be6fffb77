import { beatScore, cemgil, pScore, TRIM, trimBeats } from './beats.js';
import { continuity } from './continuity.js';
import type { Estimate } from './estimate.js';
import { informationGain } from './information-gain.js';
import { keyScore } from './key.js';
import { eventScore } from './matching.js';
import { boundaries, boundaryScore, pairwiseScore, spanning } from './segments.js';
import { tempoScore } from './tempo.js';
import { beatTiming } from './timing.js';
import type { Truth } from './truth.js';

/** The measures, in the order of the tables. Shares and F-measures are 0 to 1, times are milliseconds. */
export const MEASURES = [
  'tempo1',
  'tempo2',
  'tempoErrorPercent',
  'beatF',
  'pScore',
  'cemgil',
  'cmlc',
  'cmlt',
  'amlc',
  'amlt',
  'informationGain',
  'beatMedianMs',
  'beat95Ms',
  'beatBiasMs',
  'beatsMatched',
  'downbeatF',
  'groupF',
  'phraseF',
  'boundaryHalfBeatF',
  'boundaryBeatF',
  'boundaryBarF',
  'boundary05F',
  'boundary3F',
  'pairwiseF',
  'key',
] as const;
export type Measure = (typeof MEASURES)[number];

/** One value a measure; null where the truth or the estimate does not say, or nothing could be compared. */
export type Scores = Readonly<Record<Measure, number | null>>;

/**
 * All scores of one track. Beats and downbeats are judged from 5 s on (±70 ms), group and phrase starts within half a
 * beat; boundaries without the first and the last, which every track has for nothing.
 */
export function scoreTrack(truth: Truth, estimate: Estimate): Scores {
  const reference = trimBeats(truth.beats);
  const beats = trimBeats(estimate.beats);
  const levels = continuity(reference, beats);
  const gaussian = cemgil(reference, beats).score;
  const timing = beatTiming(reference, beats);
  const ms = (seconds: number | null) => (seconds === null ? null : seconds * 1000);
  return {
    ...tempoMeasures(truth, estimate),
    beatF: beatScore(reference, beats).f,
    pScore: pScore(reference, beats),
    cemgil: gaussian,
    ...levels,
    informationGain: informationGain(reference, beats),
    beatMedianMs: ms(timing.medianError),
    beat95Ms: ms(timing.percentile95),
    beatBiasMs: ms(timing.bias),
    beatsMatched: timing.matched,
    downbeatF: eventF(
      trimBeats(truth.downbeats, TRIM),
      estimate.downbeats && trimBeats(estimate.downbeats, TRIM),
      0.07,
    ),
    groupF: eventF(truth.groupStarts, estimate.groupStarts, 30 / truth.bpm),
    phraseF: eventF(truth.phraseStarts, estimate.phraseStarts, 30 / truth.bpm),
    ...sectionMeasures(truth, estimate),
    key: truth.key && estimate.key !== undefined ? keyScore(truth.key, estimate.key) : null,
  };
}

function tempoMeasures(truth: Truth, { bpm }: Estimate): Pick<Scores, 'tempo1' | 'tempo2' | 'tempoErrorPercent'> {
  if (bpm === null) return { tempo1: 0, tempo2: 0, tempoErrorPercent: null };
  const { accuracy1, accuracy2, error } = tempoScore(truth.bpm, bpm);
  return {
    tempo1: Number(accuracy1),
    tempo2: Number(accuracy2),
    tempoErrorPercent: error === null ? null : error * 100,
  };
}

function eventF(reference: readonly number[], estimate: readonly number[] | null, window: number): number | null {
  return reference.length === 0 || estimate === null ? null : eventScore(reference, estimate, window).f;
}

function sectionMeasures(truth: Truth, { sections }: Estimate) {
  const inner = boundaries(truth.sections, true);
  if (inner.length === 0 || sections === null) {
    return {
      boundaryHalfBeatF: null,
      boundaryBeatF: null,
      boundaryBarF: null,
      boundary05F: null,
      boundary3F: null,
      pairwiseF: null,
    };
  }
  const found = boundaries(sections, true);
  const beat = 60 / truth.bpm;
  const hit = (window: number) => boundaryScore(inner, found, window).f;
  const end = truth.sections[truth.sections.length - 1].end;
  return {
    boundaryHalfBeatF: hit(beat / 2),
    boundaryBeatF: hit(beat),
    boundaryBarF: hit(beat * truth.beatsPerBar),
    boundary05F: hit(0.5),
    boundary3F: hit(3),
    pairwiseF: pairwiseScore(spanning(truth.sections, end), spanning(sections, end)).f,
  };
}
