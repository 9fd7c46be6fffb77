import { median, type Seconds } from '../units/index.js';
import { BEAT_WINDOW, beatScore, cemgil, pScore, TRIM, trimBeats } from './beats.js';
import { continuity } from './continuity.js';
import type { Estimate } from './estimate.js';
import { informationGain } from './information-gain.js';
import { keyScore } from './key.js';
import { eventScore } from './matching.js';
import type { Measure } from './measures.js';
import { boundaries, boundaryScore, pairwiseScore, spanning } from './segments.js';
import { steadyTempo } from './steady.js';
import { tempoScore } from './tempo.js';
import { beatTiming } from './timing.js';
import type { Truth } from './truth.js';

/**
 * One value a measure; null where the truth or the estimate does not say, or nothing could be compared.
 * @experimental
 */
export type Scores = Readonly<Record<Measure, number | null>>;

/**
 * All scores of one track. Beats and downbeats are judged within ±70 ms, group and phrase starts within half a beat;
 * boundaries without the first and the last, which every track has for nothing.
 *
 * @experimental
 * @param from beats and downbeats before this are not judged: 5 s as in mir_eval, 0 for the whole track
 */
export function scoreTrack(truth: Truth, estimate: Estimate, { from = TRIM }: { from?: Seconds } = {}): Scores {
  const half = halfBeat(truth);
  const later = (times: readonly Seconds[] | null) => times && trimBeats(times, from);
  return {
    ...tempoMeasures(truth, estimate),
    ...beatMeasures(trimBeats(truth.beats, from), later(estimate.beats)),
    downbeatF: eventF(trimBeats(truth.downbeats, from), later(estimate.downbeats), BEAT_WINDOW),
    groupF: groupF(truth, estimate, half),
    phraseF: half === null ? null : eventF(truth.phraseStarts, estimate.phraseStarts, half),
    ...sectionMeasures(truth, estimate, half),
    key: truth.key && estimate.key !== undefined ? keyScore(truth.key, estimate.key) : null,
  };
}

const NO_BEATS = {
  beatF: null,
  pScore: null,
  cemgil: null,
  cmlc: null,
  cmlt: null,
  amlc: null,
  amlt: null,
  informationGain: null,
  beatMedianMs: null,
  beat95Ms: null,
  beatBiasMs: null,
  beatsMatched: null,
  lastBeatMs: null,
};

function beatMeasures(
  reference: readonly Seconds[],
  beats: readonly Seconds[] | null,
): Pick<Scores, keyof typeof NO_BEATS> {
  if (reference.length === 0 || beats === null) return NO_BEATS;
  const timing = beatTiming(reference, beats);
  const ms = (seconds: number | null) => (seconds === null ? null : seconds * 1000);
  return {
    beatF: beatScore(reference, beats).f,
    pScore: pScore(reference, beats),
    cemgil: cemgil(reference, beats).score,
    ...continuity(reference, beats),
    informationGain: informationGain(reference, beats),
    beatMedianMs: ms(timing.medianError),
    beat95Ms: ms(timing.percentile95),
    beatBiasMs: ms(timing.bias),
    beatsMatched: timing.matched,
    lastBeatMs: ms(timing.last),
  };
}

type TempoMeasures = Pick<Scores, 'tempo1' | 'tempo2' | 'tempoErrorPercent' | 'tempoErrorBpm'>;

/** The error in BPM is judged where the level is right and the true beats have one tempo. */
function tempoMeasures(truth: Truth, { bpm, beats }: Estimate): TempoMeasures {
  const silent = bpm === null && beats === null;
  if (truth.bpm === null || silent) return { tempo1: null, tempo2: null, tempoErrorPercent: null, tempoErrorBpm: null };
  if (bpm === null) return { tempo1: 0, tempo2: 0, tempoErrorPercent: null, tempoErrorBpm: null };
  const { accuracy1, accuracy2, error } = tempoScore(truth.bpm, bpm);
  const steady = accuracy1 ? steadyTempo(truth.beats) : null;
  return {
    tempo1: Number(accuracy1),
    tempo2: Number(accuracy2),
    tempoErrorPercent: error === null ? null : error * 100,
    tempoErrorBpm: steady === null ? null : Math.abs(bpm - steady),
  };
}

/** Group starts within half a beat; where the truth does not know them, neither side is judged. */
function groupF(truth: Truth, estimate: Estimate, window: Seconds | null): number | null {
  if (estimate.groupStarts === null || window === null) return null;
  const known = estimate.groupStarts.filter((t) => !truth.groupsUnknown.some((u) => t > u.start && t < u.end));
  return eventF(truth.groupStarts, known, window);
}

function eventF(reference: readonly number[], estimate: readonly number[] | null, window: number): number | null {
  return reference.length === 0 || estimate === null ? null : eventScore(reference, estimate, window).f;
}

/** Half a true beat; null where neither tempo nor beats are known. */
function halfBeat({ bpm, beats }: Truth): Seconds | null {
  if (bpm !== null) return 30 / bpm;
  return beats.length < 2 ? null : median(beats.slice(1).map((b, i) => b - beats[i])) / 2;
}

function sectionMeasures(truth: Truth, { sections }: Estimate, half: Seconds | null) {
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
  const hit = (window: number) => boundaryScore(inner, found, window).f;
  const beats = (count: number) => (half === null ? null : hit(2 * half * count));
  const end = truth.sections[truth.sections.length - 1].end;
  return {
    boundaryHalfBeatF: beats(0.5),
    boundaryBeatF: beats(1),
    boundaryBarF: beats(truth.beatsPerBar),
    boundary05F: hit(0.5),
    boundary3F: hit(3),
    pairwiseF: pairwiseScore(spanning(truth.sections, end), spanning(sections, end)).f,
  };
}
