import type {
  BarNumber,
  Bpm,
  Change,
  Confidence,
  Decibels,
  Fraction,
  Hertz,
  IrregularityKind,
  Layer,
  Lufs,
  LoudnessUnits,
  Mode,
  PitchClass,
  Seconds,
  SectionFunction,
  Steadiness,
} from '../units/index.js';
import type { Correction } from './corrections/correction.js';

/**
 * Version of the data below; `parseTrackAnalysis` brings earlier ones up to it and refuses later ones.
 * 1: as first kept; `corrections` may be missing. 2: `corrections` is always there, and may say where a bar starts.
 * @public
 */
export const SCHEMA_VERSION = 2;

/** A bar with its place in group and phrase; every count starts at 1. @public */
export interface AnalysisBar {
  /** 1 is the first whole bar; 0 only a partial bar before it. */
  number: BarNumber;
  /** Seconds; its first beat. */
  start: Seconds;
  /** Beats in it. */
  beats: number;
  /** Number of its group of four bars. */
  group: number;
  /** Bar of the group, as it is counted aloud. */
  groupBar: number;
  /** Number of its phrase. */
  phrase: number;
  /** Bar of the phrase. */
  phraseBar: number;
}

/** A phrase; `endBar` is inclusive, `end` is the start of what follows. @public */
export interface AnalysisPhrase {
  /** From 1. */
  number: number;
  /** Its first bar. */
  startBar: BarNumber;
  /** Its last bar. */
  endBar: BarNumber;
  /** Seconds. */
  start: Seconds;
  /** Seconds. */
  end: Seconds;
  /** Its length. */
  bars: number;
  /** Whether its length fits the track's own pattern; an 8 among 16s is regular. */
  regular: boolean;
  confidence: Confidence;
}

/** A section: a union of phrases. Sections that sound alike share a letter. @public */
export interface AnalysisSection {
  /** Seconds. */
  start: Seconds;
  /** Seconds; the start of what follows. */
  end: Seconds;
  /** Its first bar. */
  startBar: BarNumber;
  /** Its last bar. */
  endBar: BarNumber;
  /** What it does. */
  function: SectionFunction;
  /** A, B, C and so on, in the order in which they are first heard. */
  letter: string;
  confidence: Confidence;
}

/** A layer enters or leaves; `time` is the moment itself, `decibels` the change of its level. @public */
export interface AnalysisEvent {
  /** Seconds. */
  time: Seconds;
  /** The bar it is in. */
  bar: BarNumber;
  /** The beat of that bar, from 1. */
  beat: number;
  layer: Layer;
  change: Change;
  /** After it against before it; below 0 where the layer leaves. */
  decibels: Decibels;
  confidence: Confidence;
}

/** A place where the track leaves its own pattern. @public */
export interface AnalysisIrregularity {
  kind: IrregularityKind;
  /** See IRREGULARITY_KINDS for which bar each kind is at. */
  bar: BarNumber;
  /** Seconds; the start of that bar. */
  time: Seconds;
  /** In plain words, with bars and times. */
  explanation: string;
  confidence: Confidence;
  /** What the explanation is made from. */
  parameters: Record<string, number | string>;
  /** Named numbers, the unit in the name. */
  evidence: Record<string, number>;
}

/** Everything Barwise knows about a track: plain JSON, nothing optional. Times are stored to 0.1 ms. @public */
export interface TrackAnalysis {
  schemaVersion: typeof SCHEMA_VERSION;
  /** The file, as it was when it was analysed. */
  source: {
    /** As it was named. */
    file: string;
    /** SHA-256 (hex) of the encoded audio without tags. */
    audioDigest: string;
    /** Seconds of sound, without encoder delay and padding. */
    durationSeconds: Seconds;
    /** Hertz. */
    sampleRate: Hertz;
    /** 1 is mono. */
    channels: number;
    /** In words, such as `FLAC` or `MP3`. */
    codec: string;
    /** As the file has them; null where it has none. */
    tags: {
      title: string | null;
      artist: string | null;
      album: string | null;
      year: number | null;
      genre: string | null;
      comment: string | null;
    };
    /** What was wrong with the file, though it could be read. */
    warnings: { code: string; message: string }[];
  };
  /** What the analysis was made with; a cached one is valid for exactly this. */
  analysis: {
    version: string;
    weightsId: string;
    frontEndId: string;
    optionsDigest: string;
    correctionsDigest: string;
  };
  /** What somebody has said about the track; everything below was found under it. */
  corrections: Correction[];
  /** Beats a minute, its rivals, how steady it is, and its pieces from the first beat to the last. */
  tempo: {
    bpm: Bpm;
    confidence: Confidence;
    alternatives: { bpm: Bpm; weight: Fraction }[];
    steadiness: Steadiness;
    pieces: { start: Seconds; end: Seconds; bpm: Bpm }[];
  };
  /** Beats to the bar of most bars, and its rivals. */
  metre: { beatsPerBar: number; confidence: Confidence; alternatives: { beatsPerBar: number; weight: Fraction }[] };
  /** Every beat, ascending: seconds. */
  beats: Seconds[];
  /** How sure it is which beat is the first of the bar; the shift of every rival in beats. */
  downbeat: { confidence: Confidence; alternatives: { shiftBeats: number; weight: Fraction }[] };
  /** How sure it is where the beat falls; the shift of every rival as a share of a beat. */
  beatPhase: { confidence: Confidence; alternatives: { shift: Fraction; weight: Fraction }[] };
  /** Where the off-beat falls between two beats: 0.5 straight, about 0.67 triplet swing. */
  swing: Fraction | null;
  /** Every bar that is counted, in order; they tile the beats. */
  bars: AnalysisBar[];
  /** Bars of the track's usual phrase. */
  phraseBars: number;
  /** They tile the bars. */
  phrases: AnalysisPhrase[];
  /** They tile the phrases. */
  sections: AnalysisSection[];
  /** In the order of their times. */
  events: AnalysisEvent[];
  /** Presence per bar, in the order of `bars`; null where the judge abstains. */
  layers: Record<Layer, (Fraction | null)[]>;
  /** In the order of their bars. */
  irregularities: AnalysisIrregularity[];
  /** Null where none is heard. */
  key: {
    tonic: PitchClass | null;
    mode: Mode | null;
    confidence: Confidence;
    alternatives: { tonic: PitchClass; mode: Mode; weight: Fraction }[];
  };
  /** Of the whole track, by ITU-R BS.1770 and EBU Tech 3342; null where it is too short or silent. */
  loudness: { integratedLufs: Lufs | null; truePeakDbtp: Decibels | null; rangeLu: LoudnessUnits | null };
}
