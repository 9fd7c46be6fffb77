import type { AudioFileInfo, AudioWarning } from '../audio/index.js';
import type { Form, Irregularity } from '../form/index.js';
import type { Loudness } from '../loudness/index.js';
import type { Grid } from '../rhythm/index.js';
import type { Key } from '../tonality/index.js';
import { LAYERS, toStoredTime, type Confidence } from '../units/index.js';
import { explain } from '../wording/index.js';
import { SCHEMA_VERSION, type AnalysisIrregularity, type TrackAnalysis } from './analysis.js';
import type { Correction } from './corrections/index.js';

/** What the stages found, before it becomes plain data. */
export interface Findings {
  readonly info: AudioFileInfo;
  readonly warnings: readonly AudioWarning[];
  readonly identity: TrackAnalysis['analysis'];
  readonly corrections: readonly Correction[];
  readonly grid: Grid;
  readonly form: Form;
  readonly key: Key;
  readonly loudness: Loudness;
}

/** Turns the findings into plain data: times to 0.1 ms, shares and confidences to a thousandth, sentences in English. */
export function assemble({
  info,
  warnings,
  identity,
  corrections,
  grid,
  form,
  key,
  loudness,
}: Findings): TrackAnalysis {
  const t = toStoredTime;
  const bpm = (value: number) => round(value, 4);
  return {
    schemaVersion: SCHEMA_VERSION,
    source: {
      file: info.file,
      audioDigest: info.audioDigest,
      durationSeconds: t(info.durationSeconds),
      sampleRate: info.sampleRate,
      channels: info.channels,
      codec: info.codec,
      tags: { ...info.tags },
      warnings: warnings.map((w) => ({ ...w })),
    },
    analysis: identity,
    corrections: [...corrections],
    tempo: {
      bpm: bpm(grid.tempo.bpm),
      confidence: share(grid.tempo.confidence),
      alternatives: grid.tempo.alternatives.map((a) => ({ bpm: bpm(a.bpm), weight: round(a.weight, 3) })),
      steadiness: grid.tempo.steadiness,
      pieces: grid.tempo.pieces.map((p) => ({ start: t(p.start), end: t(p.end), bpm: bpm(p.bpm) })),
    },
    metre: {
      beatsPerBar: grid.metre.beatsPerBar,
      confidence: share(grid.metre.confidence),
      alternatives: grid.metre.alternatives.map((a) => ({ beatsPerBar: a.beatsPerBar, weight: round(a.weight, 3) })),
    },
    beats: grid.beats.map(t),
    downbeat: {
      confidence: share(grid.downbeat.confidence),
      alternatives: grid.downbeat.alternatives.map((a) => ({ shiftBeats: a.shiftBeats, weight: round(a.weight, 3) })),
    },
    beatPhase: {
      confidence: share(grid.beatPhase.confidence),
      alternatives: grid.beatPhase.alternatives.map((a) => ({ shift: round(a.shift, 3), weight: round(a.weight, 3) })),
    },
    swing: share(grid.swing),
    bars: barsOf(grid, form),
    phraseBars: form.phraseBars,
    phrases: form.phrases.map((p) => ({ ...p, start: t(p.start), end: t(p.end), confidence: share(p.confidence) })),
    sections: form.sections.map((s) => ({ ...s, start: t(s.start), end: t(s.end), confidence: share(s.confidence) })),
    events: form.events.map((e) => ({
      ...e,
      time: t(e.time),
      decibels: round(e.decibels, 1),
      confidence: share(e.confidence),
    })),
    layers: Object.fromEntries(LAYERS.map((l) => [l, form.layers[l].map(share)])) as TrackAnalysis['layers'],
    irregularities: form.irregularities.map((i) => plainIrregularity(i, grid, form)),
    key: {
      tonic: key.tonic,
      mode: key.mode,
      confidence: share(key.confidence),
      alternatives: key.alternatives.map((a) => ({ ...a, weight: round(a.weight, 3) })),
    },
    loudness: {
      integratedLufs: level(loudness.integratedLufs),
      truePeakDbtp: level(loudness.truePeakDbtp),
      rangeLu: level(loudness.rangeLu),
    },
  };
}

function barsOf(grid: Grid, form: Form): TrackAnalysis['bars'] {
  let p = 0;
  return grid.bars.map((bar, i) => {
    while (p + 1 < form.phrases.length && bar.number > form.phrases[p].endBar) p++;
    const phrase = form.phrases[p];
    return {
      number: bar.number,
      start: toStoredTime(bar.start),
      beats: bar.beats,
      group: form.groups[i].group,
      groupBar: form.groups[i].groupBar,
      phrase: phrase?.number ?? 1,
      phraseBar: bar.number - (phrase?.startBar ?? 1) + 1,
    };
  });
}

function plainIrregularity(irregularity: Irregularity, grid: Grid, form: Form): AnalysisIrregularity {
  const { kind, bar, time, confidence, evidence, ...parameters } = irregularity;
  return {
    kind,
    bar,
    time: toStoredTime(time),
    explanation: explain(irregularity, { grid, form }),
    confidence: share(confidence),
    parameters: Object.fromEntries(
      Object.entries(parameters).map(([name, v]) => [name, typeof v === 'number' ? round(v, 4) : v]),
    ),
    evidence: Object.fromEntries(Object.entries(evidence).map(([name, v]) => [name, round(v, 4)])),
  };
}

function share(value: Confidence): Confidence {
  return value === null ? null : round(Math.min(Math.max(value, 0), 1), 3);
}

/** Levels to a hundredth of a decibel. */
function level(value: number | null): number | null {
  return value === null ? null : round(value, 2);
}

function round(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale;
}
