import { BEAT_WEIGHTS, logitScore, softmax } from '../learned/index.js';
import type { FrontEnd } from '../signal/index.js';
import type { Fraction } from '../units/index.js';
import { beatCues, tempoCues } from './beat-cues.js';
import type { Grid, GridConstraints, TempoAlternative } from './grid.js';
import { onsetCurves, smoothed, type OnsetCurves } from './onsets.js';
import { readings, type Reading } from './readings.js';
import { tempoCandidates } from './tempo-candidates.js';

/** Every reading of the beat that competes, with its cues. */
export interface BeatReadings {
  readonly readings: readonly Reading[];
  readonly cues: readonly number[][];
}

/** Lays out the candidate readings of a track and describes each by its cues. */
export function beatReadings(
  frontEnd: FrontEnd,
  constraints: GridConstraints = {},
  onsets: OnsetCurves = onsetCurves(frontEnd),
): BeatReadings {
  const candidates = tempoCandidates(onsets, constraints);
  const bands = onsets.bands.map(smoothed);
  const all = smoothed(onsets.all);
  const found: Reading[] = [];
  const cues: number[][] = [];
  for (const fit of candidates.fits) {
    const tempo = tempoCues(onsets, candidates, fit.frequency);
    for (const reading of readings(onsets, bands[0], all, fit, frontEnd.duration)) {
      found.push(reading);
      cues.push(beatCues(onsets, bands, reading, tempo));
    }
  }
  return { readings: found, cues };
}

/** The chosen reading and how the evidence is shared out. */
export interface WeighedBeats {
  readonly chosen: Reading;
  readonly tempos: readonly TempoAlternative[];
  readonly phases: Grid['beatPhase']['alternatives'];
}

/** Chooses among the readings by the conditional logit; `tempo` in the constraints settles the level. */
export function weighBeats(frontEnd: FrontEnd, onsets: OnsetCurves, constraints: GridConstraints): WeighedBeats {
  const { readings: all, cues } = beatReadings(frontEnd, constraints, onsets);
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
  return {
    chosen,
    tempos: order.map((f) => ({ bpm: 60 * f, weight: tempos.get(f) ?? 0 })),
    phases: same.map(({ r, w }) => {
      const shift = (r.phase - chosen.phase) * r.frequency;
      return { shift: shift - Math.floor(shift), weight: w / sum };
    }),
  };
}
