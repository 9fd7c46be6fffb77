import type { Seconds } from '../units/index.js';
import type { Moment } from './moments.js';
import { phraseOf, type TrackView, type ViewBar } from './view.js';

/** Where the music is at a moment, as a person counts it. */
export interface Position {
  readonly bar: ViewBar;
  /** Index of the bar among the bars of the view. */
  readonly index: number;
  /** Count of the beat in the bar, from 1. */
  readonly beat: number;
  /** Counts of a whole bar here. */
  readonly counts: number;
  /** Bars of the phrase it is in. */
  readonly phraseBars: number;
  /** Ones of bars until the next phrase starts: 1 in the last bar of a phrase. */
  readonly barsLeft: number;
  /** When the next phrase starts. */
  readonly phraseEnd: Seconds;
}

/** A rounding of the player's clock must not show the beat before the one that was jumped to. */
const ROUNDING: Seconds = 0.002;

/**
 * Index of the last of some ascending times that is not after `time`; −1 when all are. Binary search.
 * @example lastAtOrBefore([0, 1, 2], 1.5) // 1
 */
export function lastAtOrBefore(times: readonly Seconds[], time: Seconds): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle] <= time) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** Where the music is at `time`; `null` before the first bar and after the last. */
export function positionAt(view: TrackView, time: Seconds): Position | null {
  const now = time + ROUNDING;
  const index = lastAtOrBefore(view.barStarts, now);
  const bar = view.bars[index];
  if (!bar || now >= bar.end) return null;
  const sounding = lastAtOrBefore(view.beats, now) - bar.firstBeat;
  const inBar = Math.min(Math.max(sounding, 0), bar.beats - 1);
  const phrase = phraseOf(view, bar.phrase);
  return {
    bar,
    index,
    beat: inBar + bar.firstCount,
    counts: bar.beats + bar.firstCount - 1,
    phraseBars: phrase?.bars ?? 0,
    barsLeft: (phrase?.endBar ?? bar.number) + 1 - bar.number,
    phraseEnd: phrase?.end ?? bar.end,
  };
}

/** The next thing that happens after `time`; `null` when nothing does. */
export function nextMoment(view: TrackView, time: Seconds): Moment | null {
  return view.moments[lastAtOrBefore(view.momentTimes, time + ROUNDING) + 1] ?? null;
}
