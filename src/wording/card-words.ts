import type { BarNumber, Steadiness } from '../units/index.js';

/** Everything on a printed card that is neither a remark on the ladder nor a sentence about an irregularity. */
export interface CardWords {
  readonly phraseOne: string;
  readonly mixIn: string;
  readonly mixOut: string;
  readonly notFound: string;
  readonly notKnown: string;
  readonly noIntro: string;
  readonly noOutro: string;
  readonly startsInFull: string;
  readonly endsInFull: string;
  readonly keyNotFound: string;
  readonly noSteadyTempo: string;
  /** "bar 17" */
  bar(bar: BarNumber): string;
  /** "0:31, until bar 17" */
  until(length: string, bar: BarNumber): string;
  /** "16 bars, 0:31 left" */
  left(bars: number, time: string): string;
  /** "from bar 97, 3:06.2" */
  from(bar: BarNumber, time: string): string;
  about(tempo: string): string;
  /** What stands beside a tempo: "BPM, drifting". */
  readonly tempoUnit: Readonly<Record<Steadiness, string>>;
  beatsABar(beats: number): string;
  /** What a doubt is about: "tempo fairly sure", "beat 1 not sure". */
  readonly doubtOf: {
    readonly tempo: string;
    readonly metre: string;
    readonly beatOne: string;
    readonly key: string;
  };
  layerNotJudged(layer: string): string;
  readonly headings: {
    readonly noLadder: string;
    readonly titleInFull: string;
    readonly breaks: string;
    readonly sections: string;
    readonly otherReadings: string;
    readonly sound: string;
    readonly file: string;
  };
  readonly nothingToCountBy: string;
  readonly nowhere: string;
  readonly columns: {
    readonly section: string;
    readonly bars: string;
    readonly length: string;
    readonly starts: string;
    readonly left: string;
  };
  /** Other readings that were weighed; each item is a reading with its share: "87 BPM (36 %)". */
  tempoMightBe(readings: string): string;
  metreMightBe(readings: string): string;
  oneMightBe(readings: string): string;
  keyMightBe(readings: string): string;
  /** "1 beat later", "2 beats earlier" */
  shifted(beats: number): string;
  phraseHas(bars: string, length: number, usual: number): string;
  loudness(said: string): string;
  readonly notMeasured: string;
  readonly truePeak: string;
  readonly range: string;
  readonly mono: string;
  readonly stereo: string;
  channels(n: number): string;
  page(number: number, of: number): string;
}
