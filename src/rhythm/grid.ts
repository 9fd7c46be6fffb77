import type { BarNumber, Bpm, Confidence, Fraction, Seconds, Steadiness } from '../units/index.js';

/**
 * A person's word on the grid; the stages are run under it. Times, never bar numbers, because bar numbers move.
 * @experimental
 */
export interface GridConstraints {
  /** Only tempos in this range are considered (inclusive). */
  readonly tempoRange?: readonly [Bpm, Bpm];
  /** The metrical level: of the candidate tempos the one nearest to this on a logarithmic scale is taken. */
  readonly tempo?: Bpm;
  /** A beat lies here (to within 70 ms). */
  readonly beatAt?: Seconds;
  /** The first beat of a bar lies here (to within 70 ms); it also fixes the beat phase. */
  readonly downbeatAt?: Seconds;
  /** The count begins here: bar 1 starts on this beat (to within 70 ms), and nothing before it is counted. */
  readonly firstOneAt?: Seconds;
  /** A bar starts on the beat nearest to each of these. */
  readonly barStartsAt?: readonly Seconds[];
  readonly beatsPerBar?: number;
}

/** A stretch with one tempo. Pieces follow each other without gap from the first beat to the last. */
export interface TempoPiece {
  readonly start: Seconds;
  readonly end: Seconds;
  readonly bpm: Bpm;
}

/** A reading of the tempo and how much of the evidence is for it; the weights of all readings sum to 1. */
export interface TempoAlternative {
  readonly bpm: Bpm;
  readonly weight: Fraction;
}

export interface Tempo {
  /** Of the whole track; for drifting music the median. */
  readonly bpm: Bpm;
  readonly confidence: Confidence;
  /** Every reading that was weighed, the chosen one first. */
  readonly alternatives: readonly TempoAlternative[];
  readonly steadiness: Steadiness;
  readonly pieces: readonly TempoPiece[];
}

export interface Metre {
  readonly beatsPerBar: number;
  readonly confidence: Confidence;
  readonly alternatives: readonly { readonly beatsPerBar: number; readonly weight: Fraction }[];
}

/** A bar of the grid. */
export interface GridBar {
  /** 1 for the first whole bar; 0 only for a partial bar before it. */
  readonly number: BarNumber;
  readonly start: Seconds;
  /** Start of what follows. */
  readonly end: Seconds;
  /** Number of beats in it. */
  readonly beats: number;
  /** Index into `Grid.beats` of its first beat. */
  readonly firstBeat: number;
}

/** A place where the grid itself leaves its own pattern. `evidence` holds named numbers, with the unit in the name. */
export type GridIrregularity =
  | {
      readonly kind: 'added-beats' | 'dropped-beats';
      readonly bar: BarNumber;
      readonly time: Seconds;
      readonly beats: number;
      readonly confidence: Confidence;
      readonly evidence: Evidence;
    }
  | {
      readonly kind: 'tempo-change';
      readonly bar: BarNumber;
      readonly time: Seconds;
      readonly fromBpm: Bpm;
      readonly toBpm: Bpm;
      readonly confidence: Confidence;
      readonly evidence: Evidence;
    }
  | {
      readonly kind: 'drift';
      readonly bar: BarNumber;
      readonly time: Seconds;
      readonly lowestBpm: Bpm;
      readonly highestBpm: Bpm;
      readonly confidence: Confidence;
      readonly evidence: Evidence;
    }
  | {
      readonly kind: 'half-time';
      readonly bar: BarNumber;
      readonly time: Seconds;
      readonly endBar: BarNumber;
      readonly countedBpm: Bpm;
      readonly feltBpm: Bpm;
      readonly confidence: Confidence;
      readonly evidence: Evidence;
    }
  | {
      readonly kind: 'beatless-passage';
      readonly bar: BarNumber;
      readonly time: Seconds;
      readonly endBar: BarNumber;
      readonly confidence: Confidence;
      readonly evidence: Evidence;
    };

/** Named numbers behind a judgement, e.g. `{ rollDecibels: 9.2 }`. */
export type Evidence = Readonly<Record<string, number>>;

/** Where the beats and bars of a track fall. Beats ascend strictly; bars tile the beats. */
export interface Grid {
  readonly tempo: Tempo;
  readonly metre: Metre;
  readonly beats: readonly Seconds[];
  readonly bars: readonly GridBar[];
  /** Which beat is the first of the bar: the shift in beats against the chosen reading and its weight, chosen first. */
  readonly downbeat: {
    readonly confidence: Confidence;
    readonly alternatives: readonly { readonly shiftBeats: number; readonly weight: Fraction }[];
  };
  /** Which phase of the beat: the shift in fractions of a beat and its weight, chosen (0) first. */
  readonly beatPhase: {
    readonly confidence: Confidence;
    readonly alternatives: readonly { readonly shift: Fraction; readonly weight: Fraction }[];
  };
  /** Where off-beat quavers fall between beats: 0.5 straight, about 0.67 triplet swing; `null` where none are heard. */
  readonly swing: Fraction | null;
  readonly irregularities: readonly GridIrregularity[];
}
