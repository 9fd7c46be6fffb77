import { jamsBeats, jamsKey, jamsSegments, jamsTempo, type Jams } from '../exchange/index.js';
import { tempoOfBeats, type Estimate } from './estimate.js';
import { groupsOf, type Truth } from './truth.js';

/**
 * Annotations in JAMS as truth: beats and downbeats, the tempo, sections, the key. Where no tempo is given it is that
 * of the median beat; group starts follow from sections by
 * the rule of `groupsOf`. What is not annotated is not known.
 * @experimental
 */
export function truthOfJams(jams: Jams, id: string): Truth {
  const { beats, downbeats, beatsPerBar } = jamsBeats(jams) ?? { beats: [], downbeats: [], beatsPerBar: null };
  const sections = jamsSegments(jams) ?? [];
  const groups = groupsOf(
    downbeats,
    sections.map((s) => s.start),
  );
  return {
    id,
    group: '',
    maker: id,
    bpm: jamsTempo(jams) ?? tempoOfBeats(beats),
    beatsPerBar: beatsPerBar ?? 4,
    duration: jams.duration ?? Math.max(0, ...beats, ...sections.map((s) => s.end)),
    beats,
    downbeats,
    groupStarts: groups.starts,
    groupsUnknown: groups.unknown,
    phraseStarts: [],
    sections,
    key: jamsKey(jams),
  };
}

/** Annotations in JAMS as somebody's answer, to be scored. @experimental */
export function estimateOfJams(jams: Jams): Estimate {
  const beats = jamsBeats(jams);
  const key = jams.annotations.some((a) => a.namespace === 'key_mode') ? { key: jamsKey(jams) } : {};
  return {
    bpm: jamsTempo(jams) ?? (beats && tempoOfBeats(beats.beats)),
    beats: beats && beats.beats,
    downbeats: beats && beats.downbeats.length > 0 ? beats.downbeats : null,
    groupStarts: null,
    phraseStarts: null,
    sections: jamsSegments(jams),
    ...key,
  };
}
