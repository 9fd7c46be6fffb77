import type { Bpm, Seconds } from '../units/index.js';
import { nearest } from './matching.js';
import type { NamedKey } from './key.js';
import type { LabelledInterval } from './segments.js';

/** What is known of a track, in the form the scores ask for. Empty lists mean "not known". */
export interface Truth {
  readonly id: string;
  /** Kind of music, for tables by kind. */
  readonly group: string;
  /** Whoever made it, as far as the id tells: weights are never fitted and tested on one maker. */
  readonly maker: string;
  readonly bpm: Bpm;
  readonly beatsPerBar: number;
  readonly duration: Seconds;
  readonly beats: readonly Seconds[];
  readonly downbeats: readonly Seconds[];
  readonly groupStarts: readonly Seconds[];
  readonly phraseStarts: readonly Seconds[];
  readonly sections: readonly LabelledInterval[];
  readonly key: NamedKey | null;
}

/** Bars of a group. */
const GROUP = 4;

/**
 * The rule by which group starts are derived where only bars and sections are known: a group starts with every section
 * (at its nearest bar), and every four bars after that until the next section.
 *
 * @returns nothing when there are fewer than two sections: then the phase of the groups is not known
 */
export function groupStartsOf(downbeats: readonly Seconds[], sectionStarts: readonly Seconds[]): Seconds[] {
  if (sectionStarts.length < 2 || downbeats.length === 0) return [];
  const starts = new Set(sectionStarts.map((t) => nearest(downbeats, t)));
  const groups: Seconds[] = [];
  let since = 0;
  for (let bar = Math.min(...starts); bar < downbeats.length; bar++) {
    if (starts.has(bar)) since = 0;
    if (since % GROUP === 0) groups.push(downbeats[bar]);
    since++;
  }
  return groups;
}

/** The truth of a copy that lacks its first seconds. */
export function cutTruth(truth: Truth, seconds: Seconds): Truth {
  const move = (times: readonly Seconds[]) => times.map((t) => t - seconds).filter((t) => t >= 0);
  return {
    ...truth,
    duration: truth.duration - seconds,
    beats: move(truth.beats),
    downbeats: move(truth.downbeats),
    groupStarts: move(truth.groupStarts),
    phraseStarts: move(truth.phraseStarts),
    sections: truth.sections
      .map((s) => ({ ...s, start: Math.max(0, s.start - seconds), end: s.end - seconds }))
      .filter((s) => s.end > s.start),
  };
}
