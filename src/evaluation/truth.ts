import { BARS_IN_GROUP, type Bpm, type NamedKey, type Seconds } from '../units/index.js';
import { nearest } from './matching.js';
import type { LabelledInterval } from './segments.js';

/** A part of a track. @experimental */
export interface Stretch {
  readonly start: Seconds;
  readonly end: Seconds;
}

/** What is known of a track, in the form the scores ask for. Empty lists mean "not known". @experimental */
export interface Truth {
  readonly id: string;
  /** Kind of music, for tables by kind. */
  readonly group: string;
  /** Whoever made it, as far as the id tells: weights are never fitted and tested on one maker. */
  readonly maker: string;
  /** null where only beats are known. */
  readonly bpm: Bpm | null;
  readonly beatsPerBar: number;
  readonly duration: Seconds;
  readonly beats: readonly Seconds[];
  readonly downbeats: readonly Seconds[];
  readonly groupStarts: readonly Seconds[];
  /** Stretches in which group starts are not judged. */
  readonly groupsUnknown: readonly Stretch[];
  readonly phraseStarts: readonly Seconds[];
  readonly sections: readonly LabelledInterval[];
  readonly key: NamedKey | null;
}

/** Where groups of four bars start, and the stretches in which nobody knows. @experimental */
export interface Groups {
  readonly starts: readonly Seconds[];
  readonly unknown: readonly Stretch[];
}

/**
 * The rule by which group starts are derived where only bars and sections are known: a group starts with every section
 * (at its nearest bar) and every four bars after that. Where the next section does not fall on that count, the two
 * disagree, and between them the groups are unknown.
 *
 * @experimental
 * @returns nothing when there are fewer than two sections: then the phase of the groups is not known
 */
export function groupsOf(downbeats: readonly Seconds[], sectionStarts: readonly Seconds[]): Groups {
  if (sectionStarts.length < 2 || downbeats.length < 2) return { starts: [], unknown: [] };
  const bars = [...new Set(sectionStarts.map((t) => nearest(downbeats, t)))].sort((a, b) => a - b);
  const starts: Seconds[] = [];
  const unknown: Stretch[] = [];
  bars.forEach((from, i) => {
    const to = bars[i + 1] ?? downbeats.length;
    if (i + 1 < bars.length && (to - from) % BARS_IN_GROUP !== 0) {
      starts.push(downbeats[from]);
      if (to - from > 1) unknown.push({ start: between(downbeats, from), end: between(downbeats, to - 1) });
    } else for (let bar = from; bar < to; bar += BARS_IN_GROUP) starts.push(downbeats[bar]);
  });
  return { starts, unknown };
}

/** The middle of a bar that has one after it. */
function between(downbeats: readonly Seconds[], bar: number): Seconds {
  return (downbeats[bar] + downbeats[bar + 1]) / 2;
}

/** The truth of a copy that lacks its first seconds. @experimental */
export function cutTruth(truth: Truth, seconds: Seconds): Truth {
  const move = (times: readonly Seconds[]) => times.map((t) => t - seconds).filter((t) => t >= 0);
  return {
    ...truth,
    duration: truth.duration - seconds,
    beats: move(truth.beats),
    downbeats: move(truth.downbeats),
    groupStarts: move(truth.groupStarts),
    groupsUnknown: truth.groupsUnknown.map((u) => ({ start: u.start - seconds, end: u.end - seconds })),
    phraseStarts: move(truth.phraseStarts),
    sections: truth.sections
      .map((s) => ({ ...s, start: Math.max(0, s.start - seconds), end: s.end - seconds }))
      .filter((s) => s.end > s.start),
  };
}
