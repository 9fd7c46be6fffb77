import type { TrackAnalysis } from '../../src/track/index.js';
import type { BarNumber, IrregularityKind, Layer } from '../../src/units/index.js';
import { sampleAnalysis, type SamplePart } from '../support/sample-analysis.js';

type Irregularity = TrackAnalysis['irregularities'][number];

const ALL: readonly Layer[] = ['kick', 'bass', 'percussion', 'harmony', 'voice'];

/** A track whose bars from `bar` on have other numbers of beats; everything after them moves. */
export function withBeats(analysis: TrackAnalysis, bar: BarNumber, beats: number): TrackAnalysis {
  const index = analysis.bars.findIndex((b) => b.number === bar);
  const beat = 60 / analysis.tempo.bpm;
  const shift = (beats - analysis.bars[index].beats) * beat;
  const from = analysis.bars[index].start + 1e-6;
  const move = (time: number) => Math.round((time > from ? time + shift : time) * 1e4) / 1e4;
  return {
    ...analysis,
    bars: analysis.bars.map((b, i) => ({ ...b, start: move(b.start), beats: i === index ? beats : b.beats })),
    phrases: analysis.phrases.map((p) => ({ ...p, start: move(p.start), end: move(p.end) })),
    sections: analysis.sections.map((s) => ({ ...s, start: move(s.start), end: move(s.end) })),
    events: analysis.events.map((e) => ({ ...e, time: move(e.time) })),
    source: { ...analysis.source, durationSeconds: analysis.source.durationSeconds + shift },
  };
}

/** Beat 1 of a track is preceded by a partial bar. */
export function withPickUp(analysis: TrackAnalysis, beats: number): TrackAnalysis {
  const start = Math.round((analysis.bars[0].start - (beats * 60) / analysis.tempo.bpm) * 1e4) / 1e4;
  const first = { number: 0, start, beats, group: 0, groupBar: 4, phrase: 1, phraseBar: 0 };
  const layers = Object.fromEntries(ALL.map((l) => [l, [l === 'percussion' ? 0.9 : 0.02, ...analysis.layers[l]]]));
  return { ...analysis, bars: [first, ...analysis.bars], layers: layers as TrackAnalysis['layers'] };
}

export function irregularity(
  kind: IrregularityKind,
  bar: BarNumber,
  parameters: Irregularity['parameters'] = {},
  explanation = `Something irregular (${kind}) at bar ${bar}.`,
): Irregularity {
  return { kind, bar, time: bar * 2, explanation, confidence: 0.8, parameters, evidence: {} };
}

const club = (phrase: number, times = 1): readonly SamplePart[] => {
  const repeat = (n: number) => Array.from({ length: n * times }, () => phrase);
  return [
    { function: 'intro', phrases: repeat(2), layers: ['kick', 'percussion'] },
    { function: 'main', phrases: repeat(2), layers: ['kick', 'bass', 'percussion', 'harmony'] },
    { function: 'breakdown', phrases: repeat(1), layers: ['harmony', 'voice'] },
    { function: 'build-up', phrases: repeat(1), layers: ['percussion', 'harmony', 'voice'] },
    { function: 'drop', phrases: repeat(2), layers: ALL },
    { function: 'main', phrases: repeat(1), layers: ['kick', 'bass', 'percussion', 'harmony'] },
    { function: 'outro', phrases: repeat(1), layers: ['kick', 'percussion'] },
  ];
};

const REGULAR: { irregularities: Irregularity[] } = { irregularities: [] };

function halfTime(): TrackAnalysis {
  const analysis = sampleAnalysis(club(16), { title: 'Double Lock', bpm: 174, ...REGULAR });
  return {
    ...analysis,
    irregularities: [irregularity('half-time', 65, { endBar: 80, countedBpm: 174, feltBpm: 87 })],
    tempo: {
      ...analysis.tempo,
      confidence: 0.46,
      alternatives: [
        { bpm: 174, weight: 0.46 },
        { bpm: 87, weight: 0.42 },
        { bpm: 116, weight: 0.12 },
      ],
    },
  };
}

function drifting(): TrackAnalysis {
  const analysis = sampleAnalysis(club(8), { title: 'Towpath Session', bpm: 123.8, phraseBars: 8, ...REGULAR });
  const bars = analysis.bars.length;
  const piece = (i: number) => {
    const [start, end] = [analysis.bars[i * 16].start, analysis.bars[Math.min(bars - 1, i * 16 + 16)].start];
    return { start, end, bpm: 122.1 + (i % 5) * 0.9 };
  };
  const explanation =
    'The tempo moves between 122.1 and 125.7 BPM, as with a live drummer: beat-match by ear all along.';
  return {
    ...analysis,
    irregularities: [irregularity('drift', 1, { lowestBpm: 122.1, highestBpm: 125.7 }, explanation)],
    tempo: {
      ...analysis.tempo,
      confidence: 0.8,
      steadiness: 'drifting',
      pieces: Array.from({ length: Math.floor(bars / 16) }, (_, i) => piece(i)),
    },
  };
}

function beatless(): TrackAnalysis {
  const parts: readonly SamplePart[] = [{ function: 'intro', phrases: [16], layers: ['harmony'] }, ...club(16)];
  const explanation = 'Bars 1–16 have no beat: they are counted back from the first kick at bar 17.';
  return sampleAnalysis(parts, {
    title: 'Mist over the Weir',
    irregularities: [irregularity('beatless-passage', 1, { endBar: 16 }, explanation)],
  });
}

function unsure(): TrackAnalysis {
  const analysis = sampleAnalysis(club(8), { title: null, artist: null, phraseBars: 8, ...REGULAR });
  return {
    ...analysis,
    source: { ...analysis.source, file: 'take 7 (rough).wav', codec: 'PCM' },
    tempo: { ...analysis.tempo, confidence: null, alternatives: [], steadiness: 'free', pieces: [] },
    metre: { ...analysis.metre, confidence: null },
    downbeat: { confidence: null, alternatives: [] },
    beatPhase: { confidence: null, alternatives: [] },
    phrases: analysis.phrases.map((p) => ({ ...p, confidence: null })),
    sections: analysis.sections.map((s) => ({ ...s, confidence: null })),
    events: analysis.events.map((e) => ({ ...e, confidence: null })),
    layers: { ...analysis.layers, voice: analysis.bars.map(() => null) },
    key: { tonic: null, mode: null, confidence: null, alternatives: [] },
    loudness: { integratedLufs: null, truePeakDbtp: null, rangeLu: null },
  };
}

function bare(): TrackAnalysis {
  const empty = { bars: [], phrases: [], sections: [], events: [], beats: [], irregularities: [] };
  const layers = { kick: [], bass: [], percussion: [], harmony: [], voice: [] };
  return { ...unsure(), ...empty, layers };
}

const CROOKED = {
  'pick-up': () => ({ beats: 2 }),
  'tempo-change': (_bar: number, i: number) => ({ fromBpm: 124, toBpm: 125 + (i % 4) }),
  'half-time': (bar: number) => ({ endBar: bar + 3, countedBpm: 124, feltBpm: 62 }),
};

function crooked(): TrackAnalysis {
  const analysis = sampleAnalysis(club(8, 2), { title: 'Crooked Quay', phraseBars: 8, ...REGULAR });
  const kinds = ['pick-up', 'tempo-change', 'half-time'] as const;
  const irregularities = Array.from({ length: 30 }, (_, i) => {
    const [kind, bar] = [kinds[i % 3], 5 + i * 5];
    const parameters = CROOKED[kind](bar, i);
    const text = `At bar ${bar} the count leaves its pattern (${kind}): two beats are heard that the metre has no place for; count again from there.`;
    return irregularity(kind, bar, parameters, text);
  });
  return { ...analysis, irregularities };
}

const LONG_TITLE =
  'The Lock-Keeper’s Account of the Long Winter in Which the Upper Basin Froze and the Barges Stood Still for Forty Nights (Extended Version for Two Turntables and a Paraffin Stove)';

/** The kinds of track that drawing and printing must stand. */
export const VARIANTS: Readonly<Record<string, () => TrackAnalysis>> = {
  plain: () => sampleAnalysis(),
  eights: () => sampleAnalysis(club(8), { title: 'Eight by Eight', phraseBars: 8, ...REGULAR }),
  mixed: () =>
    sampleAnalysis(
      [
        { function: 'intro', phrases: [8, 16], layers: ['kick', 'percussion'] },
        { function: 'main', phrases: [32], layers: ['kick', 'bass', 'percussion', 'harmony'] },
        { function: 'breakdown', phrases: [8], layers: ['harmony', 'voice'] },
        { function: 'drop', phrases: [16, 8], layers: ALL },
        { function: 'outro', phrases: [16], layers: ['kick', 'percussion'] },
      ],
      { title: 'Sluice Gate Śluza', artist: 'Żółw & Őr', ...REGULAR },
    ),
  waltz: () =>
    sampleAnalysis(club(8), { title: 'Three to the Bar', bpm: 140, beatsPerBar: 3, phraseBars: 8, ...REGULAR }),
  beatless,
  'pick-up': () => ({
    ...withPickUp(sampleAnalysis(club(8), { title: 'Leading In', phraseBars: 8, firstOne: 1.9, ...REGULAR }), 3),
    irregularities: [irregularity('pick-up', 1, { beats: 3 }, 'Three beats lead into bar 1: phrase one is at 0:01.9.')],
  }),
  'dropped-beats': () => ({
    ...withBeats(sampleAnalysis(club(8), { title: 'Short Step', phraseBars: 8, ...REGULAR }), 40, 2),
    irregularities: [
      irregularity('dropped-beats', 40, { beats: 2 }, 'Bar 40 has two beats: count "1" again at 1:16.4.'),
    ],
  }),
  'half-time': halfTime,
  drifting,
  unsure,
  bare,
  long: () => sampleAnalysis(club(8, 4), { title: 'Ten Minutes to the Locks', phraseBars: 8, ...REGULAR }),
  'long-title': () =>
    sampleAnalysis(undefined, { title: LONG_TITLE, artist: 'The Ferry House Workshop with Friends from Both Banks' }),
  crooked,
  hostile: () =>
    sampleAnalysis(club(8), {
      title: '<script>alert("&")</script>\n\u0007 ]]> 船歌 Ποταμός',
      artist: '"><img src=x onerror=alert(1)>',
      phraseBars: 8,
      ...REGULAR,
    }),
};
