import { BEAT_WEIGHTS, logitScore, softmax } from '../learned/index.js';
import type { Fraction } from '../units/index.js';
import { tempoCues } from './beat-cues.js';
import type { Grid, GridConstraints, TempoAlternative } from './grid.js';
import type { Heard } from './heard.js';
import { smoothed } from './onsets.js';
import { readingCues } from './reading-cues.js';
import { readings, type Reading } from './readings.js';
import { tempoCandidates, type TempoCandidates } from './tempo-candidates.js';

/** Every reading of the beat that competes, with its cues. */
export interface BeatReadings {
  readonly readings: readonly Reading[];
  readonly cues: readonly number[][];
}

/** Lays out the candidate readings of a track and describes each by its cues. */
export function beatReadings(
  heard: Heard,
  constraints: GridConstraints = {},
  candidates: TempoCandidates = tempoCandidates(heard.onsets, constraints),
): BeatReadings {
  const { onsets, end } = heard;
  const bands = onsets.bands.map(smoothed);
  const all = smoothed(onsets.all);
  const found: Reading[] = [];
  const cues: number[][] = [];
  for (const fit of candidates.fits) {
    const tempo = tempoCues(onsets, candidates, fit.frequency);
    for (const reading of readings(onsets, bands[0], all, fit, end, constraints.beatAt)) {
      found.push(reading);
      cues.push(readingCues(heard, bands, reading.beats, tempo));
    }
  }
  return { readings: found, cues };
}

/** Weights below this are left out of the alternatives. */
const LEAST_WEIGHT: Fraction = 0.003;

/** The chosen reading and how the evidence is shared out. */
export interface WeighedBeats {
  readonly chosen: Reading;
  /** All readings at the chosen tempo, the chosen one first. */
  readonly rivals: readonly Reading[];
  readonly tempos: readonly TempoAlternative[];
  readonly phases: Grid['beatPhase']['alternatives'];
}

/** Chooses among the readings by the conditional logit; `tempo` in the constraints settles the level. */
export function weighBeats(heard: Heard, constraints: GridConstraints, candidates: TempoCandidates): WeighedBeats {
  const { readings: all, cues } = beatReadings(heard, constraints, candidates);
  const weights = softmax(cues.map((c) => logitScore(BEAT_WEIGHTS, c)));
  const tempos = new Map<number, Fraction>();
  all.forEach((r, i) => tempos.set(r.frequency, (tempos.get(r.frequency) ?? 0) + weights[i]));
  const wanted = constraints.tempo;
  const rank = (f: number) => (wanted === undefined ? -(tempos.get(f) ?? 0) : Math.abs(Math.log((60 * f) / wanted)));
  const order = [...tempos.keys()].sort((a, b) => rank(a) - rank(b));
  const same = all.map((r, i) => ({ r, w: weights[i] })).filter(({ r }) => r.frequency === order[0]);
  same.sort((a, b) => b.w - a.w);
  const sum = same.reduce((s, { w }) => s + w, 0);
  const chosen = same[0].r;
  // A person's word leaves no doubt about the level.
  const kept = order.filter((f, i) => i === 0 || (wanted === undefined && (tempos.get(f) ?? 0) >= LEAST_WEIGHT));
  const keptSum = kept.reduce((s, f) => s + (tempos.get(f) ?? 0), 0);
  return {
    chosen,
    rivals: same.map(({ r }) => r),
    tempos: kept
      .map((f, i) => ({ bpm: 60 * f, weight: keptSum > 0 ? (tempos.get(f) ?? 0) / keptSum : 1, first: i === 0 }))
      .sort((a, b) => Number(b.first) - Number(a.first) || b.weight - a.weight)
      .map(({ bpm, weight }) => ({ bpm, weight })),
    phases: same.map(({ r, w }) => {
      const shift = (r.phase - chosen.phase) * r.frequency;
      return { shift: shift - Math.floor(shift), weight: w / sum };
    }),
  };
}
