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
 */
export const SCHEMA_VERSION = 2;

/** A bar with its place in group and phrase; every count starts at 1. */
export interface AnalysisBar {
  /** 1 is the first whole bar; 0 only a partial bar before it. */
  number: BarNumber;
  start: Seconds;
  /** Beats in it. */
  beats: number;
  group: number;
  groupBar: number;
  phrase: number;
  phraseBar: number;
}

/** A phrase; `endBar` is inclusive, `end` is the start of what follows. */
export interface AnalysisPhrase {
  number: number;
  startBar: BarNumber;
  endBar: BarNumber;
  start: Seconds;
  end: Seconds;
  bars: number;
  /** Whether its length fits the track's own pattern; an 8 among 16s is regular. */
  regular: boolean;
  confidence: Confidence;
}

/** A section: a union of phrases. Sections that sound alike share a letter. */
export interface AnalysisSection {
  start: Seconds;
  end: Seconds;
  startBar: BarNumber;
  endBar: BarNumber;
  function: SectionFunction;
  letter: string;
  confidence: Confidence;
}

/** A layer enters or leaves; `time` is the moment itself, `decibels` the change of its level. */
export interface AnalysisEvent {
  time: Seconds;
  bar: BarNumber;
  beat: number;
  layer: Layer;
  change: Change;
  decibels: Decibels;
  confidence: Confidence;
}

/** A place where the track leaves its own pattern. */
export interface AnalysisIrregularity {
  kind: IrregularityKind;
  /** See IRREGULARITY_KINDS for which bar each kind is at. */
  bar: BarNumber;
  time: Seconds;
  /** In plain words, with bars and times. */
  explanation: string;
  confidence: Confidence;
  /** What the explanation is made from. */
  parameters: Record<string, number | string>;
  /** Named numbers, the unit in the name. */
  evidence: Record<string, number>;
}

/** Everything Barwise knows about a track: plain JSON, nothing optional. Times are stored to 0.1 ms. */
export interface TrackAnalysis {
  schemaVersion: typeof SCHEMA_VERSION;
  source: {
    file: string;
    /** SHA-256 (hex) of the encoded audio without tags. */
    audioDigest: string;
    durationSeconds: Seconds;
    sampleRate: Hertz;
    channels: number;
    codec: string;
    tags: {
      title: string | null;
      artist: string | null;
      album: string | null;
      year: number | null;
      genre: string | null;
      comment: string | null;
    };
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
  tempo: {
    bpm: Bpm;
    confidence: Confidence;
    alternatives: { bpm: Bpm; weight: Fraction }[];
    steadiness: Steadiness;
    pieces: { start: Seconds; end: Seconds; bpm: Bpm }[];
  };
  metre: { beatsPerBar: number; confidence: Confidence; alternatives: { beatsPerBar: number; weight: Fraction }[] };
  beats: Seconds[];
  downbeat: { confidence: Confidence; alternatives: { shiftBeats: number; weight: Fraction }[] };
  beatPhase: { confidence: Confidence; alternatives: { shift: Fraction; weight: Fraction }[] };
  /** Where the off-beat falls between two beats: 0.5 straight, about 0.67 triplet swing. */
  swing: Fraction | null;
  bars: AnalysisBar[];
  /** Bars of the track's usual phrase. */
  phraseBars: number;
  phrases: AnalysisPhrase[];
  sections: AnalysisSection[];
  events: AnalysisEvent[];
  /** Presence per bar, in the order of `bars`; null where the judge abstains. */
  layers: Record<Layer, (Fraction | null)[]>;
  irregularities: AnalysisIrregularity[];
  key: {
    tonic: PitchClass | null;
    mode: Mode | null;
    confidence: Confidence;
    alternatives: { tonic: PitchClass; mode: Mode; weight: Fraction }[];
  };
  loudness: { integratedLufs: Lufs | null; truePeakDbtp: Decibels | null; rangeLu: LoudnessUnits | null };
}
