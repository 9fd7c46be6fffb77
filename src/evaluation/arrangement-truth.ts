import type { ArrangementTruth } from '../arranger/index.js';
import { PITCH_CLASSES, type Seconds } from '../units/index.js';
import { groupStartsOf, type Truth } from './truth.js';

/** The truth of a synthetic track, its group starts counted from every phrase. */
export function readArrangementTruth(
  id: string,
  truth: ArrangementTruth,
  duration: Seconds,
  group = 'arranged',
): Truth {
  const downbeats = truth.bars.filter((b) => b.number >= 1).map((b) => b.start);
  const phraseStarts = truth.phrases.map((p) => p.start);
  const tonic = PITCH_CLASSES.find((p) => p === truth.key.tonic);
  return {
    id,
    group,
    maker: 'arranger',
    bpm: truth.bpm,
    beatsPerBar: truth.beatsPerBar,
    duration,
    beats: truth.beats,
    downbeats,
    groupStarts: groupStartsOf(downbeats, phraseStarts),
    phraseStarts,
    sections: truth.sections.map((s) => ({ start: s.start, end: s.end, label: s.function })),
    key: tonic ? { tonic, mode: truth.key.mode } : null,
  };
}
