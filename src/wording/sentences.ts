import type { BarNumber, Bpm, Layer, Seconds, SectionFunction } from '../units/index.js';

/** What a sentence about a phrase of unusual length is made from. */
export interface LengthFacts {
  readonly function: SectionFunction;
  /** The phrase is the whole section. */
  readonly wholeSection: boolean;
  readonly startBar: BarNumber;
  readonly endBar: BarNumber;
  readonly bars: number;
  readonly usualBars: number;
  /** The usual length is the one of the whole track, not just a shorter regular one. */
  readonly usualOfTrack: boolean;
  readonly nextBar: BarNumber;
  readonly nextStart: Seconds;
  /** What the surplus bars hold. */
  readonly filler: Filler | null;
}

/** What can be heard in surplus bars: a roll, a drop in level, or the bars before once more. */
export type Filler = 'roll' | 'quiet' | 'repeat';

/** One sentence a kind of irregularity: what, where in bars and clock time, and where to count from again. */
export interface IrregularitySentences {
  added(facts: LengthFacts): string;
  dropped(facts: LengthFacts): string;
  odd(facts: LengthFacts): string;
  pickUp(facts: {
    readonly layers: readonly Layer[];
    readonly beats: number;
    readonly bar: BarNumber;
    readonly startTime: Seconds;
    readonly time: Seconds;
  }): string;
  beats(facts: {
    readonly bar: BarNumber;
    readonly time: Seconds;
    readonly beats: number;
    readonly usualBeats: number;
    readonly nextBar: BarNumber | null;
    readonly nextStart: Seconds | null;
  }): string;
  tempoChange(facts: { readonly bar: BarNumber; readonly time: Seconds; readonly from: Bpm; readonly to: Bpm }): string;
  drift(facts: { readonly lowest: Bpm; readonly highest: Bpm }): string;
  halfTime(facts: {
    readonly startBar: BarNumber;
    readonly endBar: BarNumber;
    readonly time: Seconds;
    readonly counted: Bpm;
    readonly felt: Bpm;
  }): string;
  beatless(facts: {
    readonly startBar: BarNumber;
    readonly endBar: BarNumber;
    readonly time: Seconds;
    readonly nextBar: BarNumber | null;
    readonly nextStart: Seconds | null;
  }): string;
}
