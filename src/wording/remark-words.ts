import type { BarNumber, Bpm } from '../units/index.js';

/** The few words that stand on and under the rungs of a ladder, and the ladder read out. */
export interface RemarkWords {
  /** "bar 41", "bar 41?" */
  bar(bar: BarNumber, doubtful: boolean): string;
  /** What happens off a rung's start: "bar 43, beat 3: bass in". @param beat 1 is not said */
  at(bar: BarNumber, beat: number, said: string): string;
  /** A phrase with bars too many or too few; `again` is the bar to count from, null at the end of the track. */
  over(bars: number, again: BarNumber | null): string;
  short(bars: number, again: BarNumber | null): string;
  barBeats(bar: BarNumber, beats: number): string;
  /** The same where it is not known how many beats. */
  barAdded(bar: BarNumber): string;
  barDropped(bar: BarNumber): string;
  pickUp(beats: number | null, bar: BarNumber): string;
  /** @param next the bar at which the beat comes in, null where it is not known */
  beatless(bar: BarNumber, next: BarNumber | null): string;
  newTempo(bpm: Bpm | null, bar: BarNumber): string;
  halfTime(bar: BarNumber, endBar: BarNumber | null): string;
  oddPhrase(bars: number): string;
  readonly notJudged: string;
  readonly noBars: string;
  /** The ladder read out: how it is laid out, and a sentence a rung. */
  opening(phraseBars: number, beatsPerBar: number): string;
  rung(facts: {
    /** Name of the section's function, null where no section is known. */
    readonly name: string | null;
    readonly doubtful: boolean;
    readonly firstBar: BarNumber;
    readonly lastBar: BarNumber;
    readonly start: string;
    readonly layers: readonly string[];
    readonly remarks: readonly string[];
  }): string;
  /** Alternative text of a page after the first. */
  goesOn(bar: BarNumber): string;
}
