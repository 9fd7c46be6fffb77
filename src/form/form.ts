import type {
  BarNumber,
  Change,
  Confidence,
  Decibels,
  Fraction,
  Layer,
  Seconds,
  SectionFunction,
} from '../units/index.js';
import type { Evidence, GridIrregularity } from '../rhythm/index.js';

/** A person's word on the form; the stages are run under it. Times, never bar numbers. @experimental */
export interface FormConstraints {
  /** A phrase starts at the bar nearest to each of these. */
  readonly phraseStarts?: readonly Seconds[];
  /** No phrase starts at the bar nearest to any of these. */
  readonly noPhraseStarts?: readonly Seconds[];
  /** A section starts at the bar nearest to `start`, with this function when given. */
  readonly sections?: readonly { readonly start: Seconds; readonly function?: SectionFunction }[];
  /** No section starts at the bar nearest to any of these. */
  readonly noSectionStarts?: readonly Seconds[];
  /** A layer enters or leaves on the beat nearest to `time`; or it does not do so within two bars of it. */
  readonly events?: readonly EventConstraint[];
}

/** A person's word on a layer. */
export interface EventConstraint {
  readonly time: Seconds;
  readonly layer: Layer;
  readonly change: Change;
  readonly happens: boolean;
}

/** A phrase: bars tile phrases, phrases tile the track from the first bar to the last. */
export interface Phrase {
  /** From 1. */
  readonly number: number;
  readonly startBar: BarNumber;
  /** Inclusive. */
  readonly endBar: BarNumber;
  readonly start: Seconds;
  /** Start of what follows. */
  readonly end: Seconds;
  readonly bars: number;
  /** Whether its length fits the track's own pattern; an 8 among 16s is regular. */
  readonly regular: boolean;
  readonly confidence: Confidence;
}

/** A section: phrases tile sections. Sections that sound alike share a letter. */
export interface Section {
  readonly start: Seconds;
  readonly end: Seconds;
  readonly startBar: BarNumber;
  /** Inclusive. */
  readonly endBar: BarNumber;
  readonly function: SectionFunction;
  /** 'A', 'B', … in order of first appearance. */
  readonly letter: string;
  readonly confidence: Confidence;
}

/** A layer enters or leaves. */
export interface LayerEvent {
  /** The moment itself, not snapped. */
  readonly time: Seconds;
  readonly bar: BarNumber;
  /** Beat of the bar, from 1. */
  readonly beat: number;
  readonly layer: Layer;
  readonly change: Change;
  /** Level of the layer's band after against before: positive when it enters. */
  readonly decibels: Decibels;
  readonly confidence: Confidence;
}

/** Presence of each layer in each bar, from 0 to 1, in the order of `Grid.bars`; `voice` is null where the judge abstains. */
export type LayerBars = Readonly<Record<Layer, readonly (Fraction | null)[]>>;

/** Where the form leaves the track's own pattern: kinds and parameters; `wording/` makes the sentences. */
export type FormIrregularity =
  | {
      readonly kind: 'added-bars' | 'dropped-bars' | 'odd-phrase';
      readonly bar: BarNumber;
      readonly time: Seconds;
      /** The phrase or section concerned. */
      readonly startBar: BarNumber;
      readonly endBar: BarNumber;
      /** Its length and the length that the track's pattern would give it. */
      readonly bars: number;
      readonly usualBars: number;
      readonly function: SectionFunction;
      /** Where to count again from. */
      readonly nextStart: Seconds;
      /** Where the next phrase starts in another reading that has some of the evidence. */
      readonly alternativeBar?: BarNumber;
      readonly alternativeStart?: Seconds;
      readonly alternativeShare?: Fraction;
      readonly confidence: Confidence;
      readonly evidence: Evidence;
    }
  | {
      readonly kind: 'pick-up';
      /** The bar whose one it leads to, and that one's time. */
      readonly bar: BarNumber;
      readonly time: Seconds;
      /** Where the pick-up itself starts and how many beats before the one. */
      readonly startTime: Seconds;
      readonly beats: number;
      readonly confidence: Confidence;
      readonly evidence: Evidence;
    };

export type Irregularity = GridIrregularity | FormIrregularity;

/** The form of a track on its grid. */
export interface Form {
  /** Bars of the usual phrase of this track: 4, 8 or 16. */
  readonly phraseBars: number;
  /** For each bar of the grid: the number of its group (from 1) and its place in it (from 1). */
  readonly groups: readonly { readonly group: number; readonly groupBar: number }[];
  readonly phrases: readonly Phrase[];
  readonly sections: readonly Section[];
  readonly layers: LayerBars;
  readonly events: readonly LayerEvent[];
  /** Those of the grid and those of the form, by time. */
  readonly irregularities: readonly Irregularity[];
  /** Log of the weight of every reading that the constraints allow (nats): what two sets of constraints are compared by. */
  readonly logEvidence: number;
}
