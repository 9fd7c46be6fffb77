import type { BarNumber, Confidence, Decibels, Fraction, Seconds, SectionFunction } from '../units/index.js';
import type { Deck, LayerChange, MatchRemark, PlanSubject } from '../wording/index.js';
import type { KeyMeeting } from './keys.js';
import type { TempoMatch } from './tempo.js';

/** A one of a record. @public */
export interface Place {
  /** Number of the bar that starts here. */
  readonly bar: BarNumber;
  /** Bar of its four-bar group and of its phrase, from 1. */
  readonly groupBar: number;
  readonly phraseBar: number;
  /** Seconds into the file, at its own speed. */
  readonly time: Seconds;
  /** Index of its beat in the analysis. */
  readonly beat: number;
}

/** What happens on a one of a record. @public */
export interface OneOf {
  /** Number of the bar. */
  readonly bar: BarNumber;
  /** Seconds into the file, at its own speed. */
  readonly time: Seconds;
  /** Count as it is spoken: bar of the group. */
  readonly groupBar: number;
  readonly phraseStarts: boolean;
  readonly section: SectionFunction | null;
  readonly changes: readonly LayerChange[];
}

/** What is to be done on a one. @public */
export type PlanAction = 'start-b' | 'bass-swap' | 'change-over' | 'a-out';

/** A one in the overlap, in both records. @public */
export interface PlanStep {
  /** Beats of A since B's start. */
  readonly beat: number;
  /** Seconds since B's start, at the tempo of the overlap. */
  readonly elapsed: Seconds;
  readonly a: OneOf | null;
  readonly b: OneOf | null;
  readonly actions: readonly PlanAction[];
  /** Bars of A left until A is out, and the time. */
  readonly barsLeft: number;
  readonly timeLeft: Seconds;
}

/** A stretch of the overlap in which the counts stand to each other in one way. @public */
export interface AlignedStretch {
  readonly fromA: BarNumber;
  readonly toA: BarNumber;
  /** By how many beats B's ones come after A's; 0 where they meet. */
  readonly beats: number;
}

/** One way to bring B in on A's count. @public */
export interface MatchPlan {
  /** `blend`: both play together; `cut`: B starts as A ends. */
  readonly kind: 'blend' | 'cut';
  /** From 0 to 1; for ordering plans of a pair, nothing else. */
  readonly score: Fraction;
  readonly start: { readonly a: Place; readonly b: Place; readonly countInFrom: Place | null };
  /** Where B takes the lead: B's arrival on A's boundary. `a.bar` is one past the last at the end of A. */
  readonly meet: {
    readonly a: Place;
    readonly b: Place;
    readonly functionA: SectionFunction | 'end' | 'start';
    readonly functionB: SectionFunction | 'end' | 'start';
  };
  /** Where A is out. */
  readonly end: { readonly a: Place; readonly b: Place };
  /** In bars of A. */
  readonly overlap: { readonly bars: number; readonly before: number; readonly after: number };
  /** Every one of the overlap, in order. */
  readonly steps: readonly PlanStep[];
  /** Stretches of the overlap, in order. */
  readonly alignment: readonly AlignedStretch[];
  /** Sentences by `sayMatch`: what speaks for the plan, and what stands against it. */
  readonly reasons: readonly MatchRemark[];
  readonly cautions: readonly MatchRemark[];
  /** The least sure of all that the plan rests on, and in which record. */
  readonly confidence: { readonly value: Confidence; readonly deck: Deck; readonly subject: PlanSubject };
}

/** Two records on one count. @public */
export interface TrackMatch {
  readonly tempo: TempoMatch;
  /** B's key against A's after the tempo change; `null` where a key is not known. */
  readonly keys: { readonly locked: KeyMeeting; readonly unlocked: KeyMeeting } | null;
  /** How much louder B is (negative: softer), and the gain for either record that makes them equal without raising any. */
  readonly loudness: { readonly differenceLu: number; readonly gainA: Decibels; readonly gainB: Decibels } | null;
  /** Best first; never empty for records with bars. */
  readonly plans: readonly MatchPlan[];
  /** Why there is no better plan than a cut, where that is so. */
  readonly obstacles: readonly MatchRemark[];
}
