import { LEVEL_WEIGHTS, logitScore, PHASE_WEIGHTS, softmax } from '../learned/index.js';
import type { Bpm, Fraction, Hertz } from '../units/index.js';
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

/**
 * Chooses among the readings: of each tempo the phase, then, by the likeliest phase of each, the tempo. `tempo` in the
 * constraints settles the level.
 */
export function weighBeats(heard: Heard, constraints: GridConstraints, candidates: TempoCandidates): WeighedBeats {
  const all = weighTempos(beatReadings(heard, constraints, candidates));
  const wanted = constraints.tempo;
  const rank = ({ bpm, weight }: WeighedTempo) => (wanted === undefined ? -weight : Math.abs(Math.log(bpm / wanted)));
  const order = [...all].sort((a, b) => rank(a) - rank(b));
  const { readings: rivals, phases } = order[0];
  const chosen = rivals[0];
  // A person's word leaves no doubt about the level.
  const kept = order.filter(({ weight }, i) => i === 0 || (wanted === undefined && weight >= LEAST_WEIGHT));
  const sum = kept.reduce((s, { weight }) => s + weight, 0);
  return {
    chosen,
    rivals,
    tempos: kept.map(({ bpm, weight }) => ({ bpm, weight: sum > 0 ? weight / sum : 1 })),
    phases: rivals.map((r, i) => {
      const shift = (r.phase - chosen.phase) * r.frequency;
      return { shift: shift - Math.floor(shift), weight: phases[i] };
    }),
  };
}

/** A tempo with its readings, the likeliest phase first. */
interface WeighedTempo {
  readonly bpm: Bpm;
  readonly weight: Fraction;
  readonly readings: readonly Reading[];
  /** Share of each reading at this tempo. */
  readonly phases: readonly Fraction[];
}

function weighTempos({ readings: found, cues }: BeatReadings): WeighedTempo[] {
  const byTempo = new Map<Hertz, { reading: Reading; cues: readonly number[]; score: number }[]>();
  found.forEach((reading, i) => {
    const same = byTempo.get(reading.frequency) ?? [];
    byTempo.set(reading.frequency, [...same, { reading, cues: cues[i], score: logitScore(PHASE_WEIGHTS, cues[i]) }]);
  });
  const tempos = [...byTempo.values()].map((same) => same.sort((a, b) => b.score - a.score));
  const weights = softmax(tempos.map(([best]) => logitScore(LEVEL_WEIGHTS, best.cues)));
  return tempos.map((same, i) => ({
    bpm: 60 * same[0].reading.frequency,
    weight: weights[i],
    readings: same.map(({ reading }) => reading),
    phases: softmax(same.map(({ score }) => score)),
  }));
}
