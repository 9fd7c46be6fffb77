import type { TrackAnalysis } from '../track/index.js';

/**
 * What a list of many tracks needs to know about each: some fields of its analysis, under their names. An analysis can
 * stand wherever an outline is asked for.
 * @experimental
 */
export interface TrackOutline {
  readonly source: Omit<TrackAnalysis['source'], 'warnings'>;
  readonly tempo: Pick<TrackAnalysis['tempo'], 'bpm' | 'confidence' | 'alternatives' | 'steadiness'>;
  readonly metre: Pick<TrackAnalysis['metre'], 'beatsPerBar' | 'confidence'>;
  readonly beatPhase: Pick<TrackAnalysis['beatPhase'], 'confidence'>;
  readonly downbeat: Pick<TrackAnalysis['downbeat'], 'confidence'>;
  readonly phraseBars: number;
  readonly phrases: readonly Pick<TrackAnalysis['phrases'][number], 'bars' | 'regular'>[];
  readonly sections: readonly Pick<TrackAnalysis['sections'][number], 'function' | 'letter' | 'startBar' | 'endBar'>[];
  readonly irregularities: readonly Pick<TrackAnalysis['irregularities'][number], 'kind' | 'bar' | 'parameters'>[];
  /** What somebody has said about the track. */
  readonly corrections: TrackAnalysis['corrections'];
  readonly key: Pick<TrackAnalysis['key'], 'tonic' | 'mode' | 'confidence'>;
  readonly loudness: TrackAnalysis['loudness'];
}

/** The outline of an analysis, without the rest of it. @experimental */
export function outlineOf(analysis: TrackAnalysis): TrackOutline {
  const { source, tempo, metre, beatPhase, downbeat, phraseBars, key, loudness } = analysis;
  const { file, audioDigest, durationSeconds, sampleRate, channels, codec, tags } = source;
  return {
    source: { file, audioDigest, durationSeconds, sampleRate, channels, codec, tags },
    tempo: {
      bpm: tempo.bpm,
      confidence: tempo.confidence,
      alternatives: tempo.alternatives,
      steadiness: tempo.steadiness,
    },
    metre: { beatsPerBar: metre.beatsPerBar, confidence: metre.confidence },
    beatPhase: { confidence: beatPhase.confidence },
    downbeat: { confidence: downbeat.confidence },
    phraseBars,
    phrases: analysis.phrases.map(({ bars, regular }) => ({ bars, regular })),
    sections: analysis.sections.map(({ function: f, letter, startBar, endBar }) => ({
      function: f,
      letter,
      startBar,
      endBar,
    })),
    irregularities: analysis.irregularities.map(({ kind, bar, parameters }) => ({ kind, bar, parameters })),
    corrections: analysis.corrections,
    key: { tonic: key.tonic, mode: key.mode, confidence: key.confidence },
    loudness,
  };
}
