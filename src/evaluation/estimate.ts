import type { Form } from '../form/index.js';
import type { Grid } from '../rhythm/index.js';
import type { TrackAnalysis } from '../track/index.js';
import type { Bpm, NamedKey, Seconds } from '../units/index.js';
import type { LabelledInterval } from './segments.js';

/** What somebody says of a track, in the form the scores ask for; `null` where nothing is said. @experimental */
export interface Estimate {
  readonly bpm: Bpm | null;
  readonly beats: readonly Seconds[] | null;
  readonly downbeats: readonly Seconds[] | null;
  readonly groupStarts: readonly Seconds[] | null;
  readonly phraseStarts: readonly Seconds[] | null;
  readonly sections: readonly LabelledInterval[] | null;
  /** Left out by whoever is not asked for keys; null is "no key". */
  readonly key?: NamedKey | null;
}

/** The tempo of the median interval; null for fewer than two beats. @experimental */
export function tempoOfBeats(beats: readonly Seconds[]): Bpm | null {
  const intervals = beats.slice(1).map((b, i) => b - beats[i]).sort((a, b) => a - b); // prettier-ignore
  const period = intervals[intervals.length >> 1];
  return period > 0 ? 60 / period : null;
}

/** Nothing but beats, as reference trackers give; the tempo is that of the median interval. @experimental */
export function estimateOfBeats(beats: readonly Seconds[]): Estimate {
  return {
    bpm: tempoOfBeats(beats),
    beats,
    downbeats: null,
    groupStarts: null,
    phraseStarts: null,
    sections: null,
  };
}

/** A grid and, when there is one, the form on it. @experimental */
export function estimateOfForm(grid: Grid, form: Form | null): Estimate {
  return {
    bpm: grid.tempo.bpm,
    beats: grid.beats,
    downbeats: grid.bars.filter((b) => b.number >= 1).map((b) => b.start),
    groupStarts:
      form && grid.bars.filter((b, i) => b.number >= 1 && form.groups[i]?.groupBar === 1).map((b) => b.start),
    phraseStarts: form && form.phrases.map((p) => p.start),
    sections: form && form.sections.map((s) => ({ start: s.start, end: s.end, label: s.letter })),
  };
}

/** A whole analysis. @experimental */
export function estimateOfAnalysis(analysis: TrackAnalysis): Estimate {
  const { tonic, mode } = analysis.key;
  const bars = analysis.bars.filter((b) => b.number >= 1);
  return {
    bpm: analysis.tempo.bpm,
    beats: analysis.beats,
    downbeats: bars.map((b) => b.start),
    groupStarts: bars.filter((b) => b.groupBar === 1).map((b) => b.start),
    phraseStarts: analysis.phrases.map((p) => p.start),
    sections: analysis.sections.map((s) => ({ start: s.start, end: s.end, label: s.letter })),
    key: tonic && mode ? { tonic, mode } : null,
  };
}
