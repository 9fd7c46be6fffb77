import type { TrackAnalysis } from '../../track/index.js';
import type { Confidence, Seconds } from '../../units/index.js';

/** Version of JAMS whose schema this follows. */
const JAMS_VERSION = '0.3.4';
/** Beats are counted in quarter notes. */
const QUARTER = 4;

interface Observation {
  readonly time: Seconds;
  readonly duration: Seconds;
  readonly value: unknown;
  readonly confidence: Confidence;
}

/**
 * An analysis in JAMS (Humphrey et al., ISMIR 2014): beats with their place in the bar, the tempo and its rivals,
 * sections, phrases, key. Times are those of the analysis, to 0.1 ms.
 *
 * @public
 * @returns plain data, valid by the published schema
 */
export function toJams(analysis: TrackAnalysis): object {
  const { source, tempo, sections, phrases, key } = analysis;
  const length = source.durationSeconds;
  const annotations = [
    annotation(analysis, 'beat_position', beatPositions(analysis), 'Beats and their place in the bar.'),
    annotation(
      analysis,
      'tempo',
      tempo.alternatives.length > 0
        ? tempo.alternatives.map(({ bpm, weight }) => whole(length, bpm, weight))
        : [whole(length, tempo.bpm, tempo.confidence)],
      'The tempo that is counted at, and its rivals.',
    ),
    annotation(
      analysis,
      'segment_open',
      sections.map((s) => span(s.start, s.end, s.function, s.confidence)),
      'Sections by their function.',
    ),
    annotation(
      analysis,
      'segment_open',
      phrases.map((p) => span(p.start, p.end, `phrase of ${p.bars} bars`, p.confidence)),
      'Phrases.',
    ),
    ...(key.tonic && key.mode
      ? [annotation(analysis, 'key_mode', [whole(length, `${key.tonic}:${key.mode}`, key.confidence)], 'The key.')]
      : []),
  ];
  return {
    file_metadata: {
      title: source.tags.title ?? '',
      artist: source.tags.artist ?? '',
      release: source.tags.album ?? '',
      duration: length,
      identifiers: { audio_sha256: source.audioDigest },
      jams_version: JAMS_VERSION,
    },
    annotations,
    sandbox: {},
  };
}

/** Every beat that belongs to a bar. */
function beatPositions({ bars, beats }: TrackAnalysis): Observation[] {
  const observations: Observation[] = [];
  let at = bars.length > 0 ? beats.findIndex((time) => time >= bars[0].start - 1e-4) : beats.length;
  for (const bar of bars) {
    for (let position = 1; position <= bar.beats && at < beats.length; position++, at++) {
      const value = { position, measure: Math.max(bar.number, 0), num_beats: bar.beats, beat_units: QUARTER };
      observations.push({ time: beats[at], duration: 0, value, confidence: null });
    }
  }
  return observations;
}

function span(start: Seconds, end: Seconds, value: string, confidence: Confidence): Observation {
  return { time: start, duration: Math.max(0, Math.round((end - start) * 1e4) / 1e4), value, confidence };
}

function whole(length: Seconds, value: unknown, confidence: Confidence): Observation {
  return { time: 0, duration: length, value, confidence };
}

function annotation(
  { analysis }: TrackAnalysis,
  namespace: string,
  data: readonly Observation[],
  about: string,
): object {
  return {
    namespace,
    data,
    annotation_metadata: {
      annotator: {},
      version: analysis.version,
      corpus: '',
      annotation_tools: `barwise ${analysis.version} (${analysis.weightsId})`,
      annotation_rules: about,
      validation: '',
      data_source: 'program',
    },
    sandbox: {},
    time: 0,
    duration: null,
  };
}
