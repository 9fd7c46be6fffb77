import type { BarNumber, Seconds } from '../../units/index.js';
import type { MatchRemark } from './remarks.js';

/** The words of two records on one count, in one language. */
export interface MatchWords {
  /** One sentence for a remark. */
  readonly remark: (remark: MatchRemark) => string;
  /** "start B on the one of A's bar 129, 4:06.4; count in four bars from 125" */
  start(facts: {
    readonly nameB: string;
    readonly barA: BarNumber;
    readonly timeA: Seconds;
    readonly barB: BarNumber;
    readonly timeB: Seconds;
    readonly countInFrom: BarNumber | null;
    readonly phraseOne: boolean;
  }): string;
  cut(facts: {
    readonly nameB: string;
    readonly timeA: Seconds;
    readonly barB: BarNumber;
    readonly timeB: Seconds;
  }): string;
  /** "the overlap: 32 bars, 24 before the records change over and 8 after" */
  overlap(total: number, before: number, after: number): string;
  /** Names of what is done on a one. */
  readonly actions: {
    readonly 'start-b': string;
    readonly 'bass-swap': string;
    readonly 'change-over': string;
    readonly 'a-out': string;
  };
  readonly headings: {
    readonly plan: string;
    readonly others: string;
    readonly ones: string;
    readonly why: string;
    readonly against: string;
    readonly barsLeft: string;
    readonly timeLeft: string;
    readonly happensA: string;
    readonly happensB: string;
    readonly do: string;
    readonly order: string;
  };
  readonly nothing: string;
}
