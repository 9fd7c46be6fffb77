import type { BarNumber, Bpm, Change, IrregularityKind, Layer, Seconds, SectionFunction } from '../units/index.js';

/** A planted irregularity: its kind, the bar it is at (see Irregularity in form/) and how much of it. */
export interface PlantedIrregularity {
  readonly kind: IrregularityKind;
  readonly bar: BarNumber;
  readonly time: Seconds;
  /**
   * Bars or beats added or dropped, beats of a pick-up, bars of a beatless or half-time passage or of an odd phrase;
   * 0 where no count applies.
   */
  readonly amount: number;
}

/** Exactly what a synthetic track contains. Bars count from 1; a beatless opening on the grid is counted. */
export interface ArrangementTruth {
  readonly bpm: Bpm;
  readonly beatsPerBar: number;
  readonly beats: readonly Seconds[];
  readonly bars: readonly { readonly number: BarNumber; readonly start: Seconds; readonly beats: number }[];
  readonly phrases: readonly { readonly startBar: BarNumber; readonly start: Seconds; readonly bars: number }[];
  readonly sections: readonly {
    readonly start: Seconds;
    readonly end: Seconds;
    readonly startBar: BarNumber;
    readonly bars: number;
    readonly function: SectionFunction;
  }[];
  /** Layer entries and exits that can be heard. */
  readonly events: readonly {
    readonly bar: BarNumber;
    readonly time: Seconds;
    readonly layer: Layer;
    readonly change: Change;
  }[];
  readonly irregularities: readonly PlantedIrregularity[];
  readonly key: { readonly tonic: string; readonly mode: 'major' | 'minor' };
}
