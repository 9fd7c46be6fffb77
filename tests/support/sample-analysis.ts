import { LAYERS, toStoredTime, type Layer, type SectionFunction } from '../../src/units/index.js';
import { SCHEMA_VERSION, trackAnalysisSchema, type TrackAnalysis } from '../../src/track/index.js';

/** A part of a made-up track: its function, its phrases (bars of each) and the layers that play in it. */
export interface SamplePart {
  readonly function: SectionFunction;
  readonly phrases: readonly number[];
  readonly layers: readonly Layer[];
}

export interface SampleOptions {
  readonly title?: string | null;
  readonly artist?: string | null;
  readonly bpm?: number;
  readonly beatsPerBar?: number;
  readonly phraseBars?: number;
  readonly firstOne?: number;
  readonly irregularities?: TrackAnalysis['irregularities'];
  readonly overrides?: Partial<TrackAnalysis>;
}

/** A plain 16-bar track with a build-up of 18 bars: the sketch of the design. */
export const SLACK_WATER: readonly SamplePart[] = [
  { function: 'intro', phrases: [16], layers: ['kick', 'percussion'] },
  { function: 'main', phrases: [16], layers: ['kick', 'bass', 'percussion', 'harmony'] },
  { function: 'breakdown', phrases: [8], layers: ['harmony', 'voice'] },
  { function: 'build-up', phrases: [18], layers: ['percussion', 'harmony', 'voice'] },
  { function: 'drop', phrases: [16, 16], layers: ['kick', 'bass', 'percussion', 'harmony', 'voice'] },
  { function: 'outro', phrases: [14], layers: ['kick', 'percussion'] },
];

/** An analysis of a track that does not exist, valid by the schema, for drawing and printing without any audio. */
export function sampleAnalysis(parts: readonly SamplePart[] = SLACK_WATER, options: SampleOptions = {}): TrackAnalysis {
  const bpm = options.bpm ?? 124;
  const beatsPerBar = options.beatsPerBar ?? 4;
  const phraseBars = options.phraseBars ?? 16;
  const first = options.firstOne ?? 0.42;
  const beat = 60 / bpm;
  const barTime = (bar: number) => toStoredTime(first + (bar - 1) * beatsPerBar * beat);

  const phrases: TrackAnalysis['phrases'] = [];
  const sections: TrackAnalysis['sections'] = [];
  const events: TrackAnalysis['events'] = [];
  const bars: TrackAnalysis['bars'] = [];
  const layers = Object.fromEntries(LAYERS.map((l) => [l, [] as number[]])) as Record<Layer, number[]>;
  const letters = new Map<string, string>();
  let bar = 1;
  let before: readonly Layer[] = [];
  for (const part of parts) {
    const startBar = bar;
    for (const length of part.phrases) {
      const number = phrases.length + 1;
      phrases.push({
        number,
        startBar: bar,
        endBar: bar + length - 1,
        start: barTime(bar),
        end: barTime(bar + length),
        bars: length,
        regular: length === phraseBars || length === phraseBars / 2 || length === phraseBars * 2,
        confidence: 0.9,
      });
      for (let i = 0; i < length; i++, bar++) {
        bars.push({
          number: bar,
          start: barTime(bar),
          beats: beatsPerBar,
          group: bars.length === 0 ? 1 : bars[bars.length - 1].group + (i % 4 === 0 ? 1 : 0),
          groupBar: (i % 4) + 1,
          phrase: number,
          phraseBar: i + 1,
        });
        for (const l of LAYERS) layers[l].push(part.layers.includes(l) ? 0.92 : 0.03);
      }
    }
    const key = part.function === 'drop' ? 'main' + part.layers.join() : part.function + part.layers.join();
    if (!letters.has(key)) letters.set(key, String.fromCharCode(65 + letters.size));
    sections.push({
      start: barTime(startBar),
      end: barTime(bar),
      startBar,
      endBar: bar - 1,
      function: part.function,
      letter: letters.get(key)!,
      confidence: 0.85,
    });
    for (const l of LAYERS) {
      const [was, is] = [before.includes(l), part.layers.includes(l)];
      if (was !== is) {
        events.push({
          time: barTime(startBar),
          bar: startBar,
          beat: 1,
          layer: l,
          change: is ? 'enters' : 'leaves',
          decibels: is ? 14 : -14,
          confidence: 0.9,
        });
      }
    }
    before = part.layers;
  }
  const total = bar - 1;
  const irregular = phrases.find((p) => p.bars > phraseBars && p.bars % phraseBars !== 0);
  return trackAnalysisSchema.parse({
    schemaVersion: SCHEMA_VERSION,
    source: {
      file: 'slack-water.flac',
      audioDigest: 'a'.repeat(64),
      durationSeconds: toStoredTime(barTime(total + 1) + 1.2),
      sampleRate: 44_100,
      channels: 2,
      codec: 'FLAC',
      tags: {
        title: options.title === undefined ? 'Slack Water' : options.title,
        artist: options.artist === undefined ? 'The Ferry House Workshop' : options.artist,
        album: null,
        year: null,
        genre: null,
        comment: null,
      },
      warnings: [],
    },
    analysis: { version: '0.1.0', weightsId: 'sample', frontEndId: 'fe1', optionsDigest: '0', correctionsDigest: '0' },
    tempo: {
      bpm,
      confidence: 0.97,
      alternatives: [
        { bpm, weight: 0.97 },
        { bpm: bpm / 2, weight: 0.03 },
      ],
      steadiness: 'constant',
      pieces: [{ start: barTime(1), end: barTime(total + 1), bpm }],
    },
    metre: { beatsPerBar, confidence: 0.98, alternatives: [{ beatsPerBar, weight: 0.98 }] },
    corrections: [],
    beats: Array.from({ length: total * beatsPerBar }, (_, i) => toStoredTime(first + i * beat)),
    downbeat: {
      confidence: 0.9,
      alternatives: [
        { shiftBeats: 0, weight: 0.9 },
        { shiftBeats: 2, weight: 0.1 },
      ],
    },
    beatPhase: {
      confidence: 0.95,
      alternatives: [
        { shift: 0, weight: 0.95 },
        { shift: 0.5, weight: 0.05 },
      ],
    },
    swing: 0.5,
    bars,
    phraseBars,
    phrases,
    sections,
    events,
    layers,
    irregularities:
      options.irregularities ??
      (irregular
        ? [
            {
              kind: 'added-bars',
              bar: irregular.startBar + phraseBars,
              time: barTime(irregular.startBar + phraseBars),
              explanation: `The phrase of bars ${irregular.startBar}–${irregular.endBar} is ${irregular.bars - phraseBars} bars longer than this track's ${phraseBars}; the next phrase starts at bar ${irregular.endBar + 1}.`,
              confidence: 0.8,
              parameters: {
                startBar: irregular.startBar,
                endBar: irregular.endBar,
                bars: irregular.bars,
                usualBars: phraseBars,
                function: sections.find((f) => f.startBar <= irregular.startBar && irregular.startBar <= f.endBar)!
                  .function,
                nextStart: irregular.end,
              },
              evidence: { boundaryDecibels: 11.5 },
            },
          ]
        : []),
    key: {
      tonic: 'A',
      mode: 'minor',
      confidence: 0.7,
      alternatives: [
        { tonic: 'A', mode: 'minor', weight: 0.7 },
        { tonic: 'C', mode: 'major', weight: 0.3 },
      ],
    },
    loudness: { integratedLufs: -8.6, truePeakDbtp: -0.4, rangeLu: 5.1 },
    ...options.overrides,
  });
}
