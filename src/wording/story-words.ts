import type { BarNumber, Bpm, Seconds, Steadiness } from '../units/index.js';

/** The sentences and table heads of a track that is told in plain words. */
export interface StoryWords {
  /** "124 BPM, held by a clock, 4 beats to the bar, 106 bars in 3:27; phrases of 16 bars (64 beats) are usual." */
  opening(facts: {
    readonly tempo: string;
    readonly steadiness: Steadiness;
    readonly beatsPerBar: number;
    readonly bars: number;
    readonly length: string;
    readonly phraseBars: number;
  }): string;
  readonly key: (key: string) => string;
  /** Where the count begins. */
  firstOne(bar: BarNumber, time: Seconds): string;
  readonly headings: {
    readonly told: string;
    readonly breaks: string;
    readonly doubt: string;
    readonly corrected: string;
  };
  section(facts: {
    readonly name: string;
    /** How sure its function is, in a word; empty where it is sure. */
    readonly doubt: string;
    readonly startBar: BarNumber;
    readonly endBar: BarNumber;
    readonly start: Seconds;
    readonly bars: number;
    readonly phrases: readonly number[];
  }): string;
  /** An earlier section that sounds the same. */
  like(name: string, bar: BarNumber): string;
  /** "bar 41, 1:18.1" */
  place(bar: BarNumber, time: Seconds): string;
  /** "bar 41, beat 3, 1:19.0" */
  placeOfBeat(bar: BarNumber, beat: number, time: Seconds): string;
  phrase(number: number, bars: number): string;
  nothingChanges: string;
  readonly regular: string;
  /** Instead of it, where phrases do not fit and none is sure enough to tell. */
  readonly noneSure: string;
  /** What an irregularity rests on. */
  evidence(items: readonly string[]): string;
  /** Another way to count it: the next phrase starts at a bar. */
  orStartsAt(bar: BarNumber, time: Seconds, share: number): string;
  doubtWith(word: string, percent: string): string;
  /** Named numbers in words with their units; `null` where the name is not known. */
  number(name: string, value: number): string | null;
  tempoDoubt(readings: readonly { readonly bpm: Bpm; readonly weight: number | null }[]): string;
  doubtOf(what: DoubtSubject, word: string, others: string): string;
  /** In how many of the bars it cannot be judged. */
  layerDoubt(layer: string, bars: number, of: number): string;
  readonly noDoubt: string;
  shiftedOne(beats: number): string;
  beatsPerBar(n: number): string;
  /** What somebody has said about the track: the analysis was made under it. */
  readonly corrections: {
    tempo(bpm: Bpm): string;
    metre(beatsPerBar: number): string;
    tempoRange(low: Bpm, high: Bpm): string;
    firstOne(time: Seconds): string;
    beat(time: Seconds): string;
    bar(time: Seconds): string;
    phrase(time: Seconds, starts: boolean): string;
    section(time: Seconds, name: string | null, starts: boolean): string;
    event(time: Seconds, said: string, happens: boolean): string;
  };
  /** What a correction changed: the names of what is compared. */
  readonly changed: Readonly<Record<ChangedSubject, string>>;
  readonly columns: {
    readonly bar: string;
    readonly time: string;
    readonly count: string;
    readonly phrase: string;
    readonly section: string;
    readonly happens: string;
  };
  /** "3 (9 of 16)" */
  inPhrase(phrase: number, bar: number, bars: number): string;
  /** What the count table says at a bar of an irregularity. */
  readonly notes: {
    over(bars: number): string;
    shortBefore(bars: number): string;
    odd(bars: number): string;
    beats(n: number): string;
    pickUp(beats: number, time: Seconds): string;
    pickUpTo(): string;
    beatless(): string;
    beatBack(): string;
    halfTime(): string;
    halfTimeEnds(): string;
    tempo(bpm: Bpm): string;
    drift(lowest: Bpm, highest: Bpm): string;
    maybePhrase(): string;
  };
}

/** What can differ between two analyses of one track. */
export type ChangedSubject =
  'tempo' | 'metre' | 'first one' | 'beats' | 'bars' | 'phrase' | 'section' | 'event' | 'irregularity';

/** What can be in doubt about a whole track. */
export type DoubtSubject = 'tempo' | 'metre' | 'beat' | 'bar one' | 'key';
