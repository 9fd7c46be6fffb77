import type { ArrangementTruth } from '../arranger/index.js';
import { BARS_IN_GROUP, PITCH_CLASSES, type Seconds } from '../units/index.js';
import type { Truth } from './truth.js';

/** The truth of a synthetic track, its group starts counted from every phrase. @experimental */
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
    groupsUnknown: [],
    phraseStarts,
    sections: truth.sections.map((s) => ({ start: s.start, end: s.end, label: s.function })),
    key: tonic ? { tonic, mode: truth.key.mode } : null,
  };
}

/** Groups of four bars, counted anew from every phrase: here phrases are known, and that is what a group is. */
function groupStartsOf(downbeats: readonly Seconds[], phraseStarts: readonly Seconds[]): Seconds[] {
  let since = 0;
  return downbeats.filter((bar) => {
    if (phraseStarts.some((p) => Math.abs(p - bar) < 1e-3)) since = 0;
    return since++ % BARS_IN_GROUP === 0;
  });
}
