import type { BarNumber, Change, Layer, SectionFunction } from '../../src/index.js';

/** Words that only printed pieces need, beside those of src/wording. A second language is a second table of this type. */
export interface PrintWords {
  /** Names of documents; `what` is a track or a number of tracks. */
  readonly documents: {
    card(what: string): string;
    lesson(what: string): string;
    comparison(one: string, other: string): string;
    worksheet(what: string): string;
    tracks(n: number): string;
  };
  readonly back: {
    readonly ones: string;
    readonly landmarks: string;
    readonly notes: string;
    readonly columns: {
      readonly one: string;
      readonly section: string;
      readonly bars: string;
      readonly elapsed: string;
      readonly left: string;
    };
    /** "drop, bars 59–90" */
    sectionBars(name: string, bars: string): string;
  };
  /** The line that explains a ladder; the longer one is taken where it fits. */
  readonly legend: {
    rows(phraseBars: number, beatsPerBar: number): string;
    readonly faint: string;
    readonly faintShort: string;
  };
  readonly sheet: {
    readonly front: string;
    readonly back: string;
    readonly longEdge: string;
    readonly shortEdge: string;
    /** At the foot of a sheet. */
    foot(sheet: number, of: number, side: string, edge: string): string;
  };
  readonly index: {
    readonly tempo: string;
    readonly key: string;
    readonly name: string;
    readonly columns: {
      readonly number: string;
      readonly name: string;
      readonly tempo: string;
      readonly key: string;
      readonly length: string;
    };
  };
  readonly warnings: {
    missingGlyphs(n: number): string;
    readonly titleShortened: string;
    readonly rightToLeft: string;
    readonly noQuestions: string;
    /** Stands for a title that cannot be set. */
    unnamed(id: string): string;
  };
  readonly lesson: LessonWords;
  readonly worksheet: WorksheetWords;
}

export interface LessonWords {
  readonly howToCount: string;
  readonly howToRead: string;
  /** What to say on the beats: the first word of each bar is its number in the group. */
  counting(beatsPerBar: number): string;
  reading(phraseBars: number): string;
  odd(usual: number): string;
  readonly landmarks: string;
  readonly breaks: string;
  readonly goesOn: string;
  readonly compared: string;
  readonly sameTempo: string;
  readonly rows: {
    readonly tempo: string;
    readonly key: string;
    readonly length: string;
    readonly phrase: string;
    readonly mixIn: string;
    readonly mixOut: string;
    readonly drop: string;
    readonly breaks: string;
    readonly regular: string;
  };
  readonly none: string;
  places(n: number): string;
  of(bars: number, beats: number): string;
  /** "bar 59, 1:52.7" */
  at(bar: BarNumber, time: string): string;
}

/** The questions of a worksheet and their answers. Layers and sections come with their names, times as they are read. */
export interface WorksheetWords {
  readonly title: string;
  readonly key: string;
  readonly nameLine: string;
  readonly dateLine: string;
  level(n: number): string;
  readonly instructions: { readonly 1: string; readonly 2: string; readonly 3: string };
  readonly caution: string;
  layer(layer: Layer, name: string): string;
  section(value: SectionFunction, name: string): string;
  readonly ask: {
    change(layer: string, change: Change): string;
    sectionStart(value: SectionFunction, name: string): string;
    phraseLength(ordinal: number): string;
    /** Which layers play from a bar on, the first of a phrase. */
    heard(bar: number): string;
    readonly usualPhrase: string;
    readonly oddPhrase: string;
    readonly breaks: string;
    readonly ones: string;
    room(value: SectionFunction, name: string): string;
    beatsBetween(from: string, to: string): string;
    startNext(bars: number, section: string): string;
    faster(bpm: string, section: string): string;
    /** Where one bar alone has not the usual number of beats. */
    oddBar(): string;
    countAt(bar: BarNumber): string;
    /** Where in its phrase a track is when a player shows a time. */
    clockAt(time: string): string;
  };
  readonly tell: {
    place(bar: BarNumber, time: string): string;
    length(bars: number, beats: number): string;
    odd(ordinal: number, bars: number, usual: number, again: BarNumber | null): string;
    readonly noOdd: string;
    ones(bars: readonly BarNumber[]): string;
    room(bars: number, time: string): string;
    count(groupBar: number, group: string): string;
    oddBar(bar: BarNumber, beats: number): string;
    inPhrase(phraseBar: number, phraseBars: number, bar: BarNumber): string;
    lasts(time: string): string;
  };
}
