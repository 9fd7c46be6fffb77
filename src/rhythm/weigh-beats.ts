import { LEVEL_WEIGHTS, logitScore, PHASE_WEIGHTS, softmax } from '../learned/index.js';
import type { Bpm, Fraction, Hertz } from '../units/index.js';
import { tempoCues } from './beat-cues.js';
import { clearOnes } from './clear-ones.js';
import { closeScores, withClearness } from './close-scores.js';
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
  const all = weighTempos(beatReadings(heard, constraints, candidates), (reading) =>
    clearOnes(heard, reading.beats, constraints.beatsPerBar),
  );
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

/** What the clearness of its ones is worth to a phase and to a tempo, in nats a nat (docs/decisions.md, 43). */
export const ONES_OF_PHASE = 0.2;
const ONES_OF_TEMPO = 0.05;

interface Scored {
  readonly reading: Reading;
  readonly cues: readonly number[];
  readonly score: number;
}

/** Weighs the phases of each tempo and the tempos, by their cues and, of those that are close, by how clear their ones are. */
function weighTempos({ readings: found, cues }: BeatReadings, clearness: (reading: Reading) => number): WeighedTempo[] {
  const known = new Map<Reading, number>();
  const clear = (reading: Reading) => {
    if (!known.has(reading)) known.set(reading, clearness(reading));
    return known.get(reading)!;
  };
  const byTempo = new Map<Hertz, Scored[]>();
  found.forEach((reading, i) => {
    const same = byTempo.get(reading.frequency) ?? [];
    byTempo.set(reading.frequency, [...same, { reading, cues: cues[i], score: logitScore(PHASE_WEIGHTS, cues[i]) }]);
  });
  const byCues = [...byTempo.values()].map((same) => same.sort(byScore));
  const levels = byCues.map(([best]) => logitScore(LEVEL_WEIGHTS, best.cues));
  const near = closeScores(levels);
  const tempos = byCues.map((same, i) => (near.has(i) ? byOnes(same, clear) : same));
  const weights = softmax(withClearness(levels, ONES_OF_TEMPO, (i) => clear(tempos[i][0].reading)));
  return tempos.map((same, i) => ({
    bpm: 60 * same[0].reading.frequency,
    weight: weights[i],
    readings: same.map(({ reading }) => reading),
    phases: softmax(same.map(({ score }) => score)),
  }));
}

function byOnes(same: readonly Scored[], clear: (reading: Reading) => number): Scored[] {
  const scores = withClearness(
    same.map(({ score }) => score),
    ONES_OF_PHASE,
    (i) => clear(same[i].reading),
  );
  return same.map((s, i) => ({ ...s, score: scores[i] })).sort(byScore);
}

function byScore(a: Scored, b: Scored): number {
  return b.score - a.score;
}
