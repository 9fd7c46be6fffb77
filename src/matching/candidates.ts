import type { TrackCount } from './count.js';
import { barStartingAt } from './count.js';
import { beatOfA, beatOfB, type Frame } from './frame.js';
import { arrivingMoments, leavingMoments, type Moment } from './moments.js';

/** What bounds the search; all in bars of A. */
export interface SearchLimits {
  /** Longest overlap. */
  readonly longest: number;
  /** Longest time that A plays on behind the change-over. */
  readonly after: number;
  /** A is not left, and B not started, before this bar of A. */
  readonly notBefore: number;
}

/** Overlaps shorter than this are no blend. */
const SHORTEST = 4;

/** Every way to lay B on A's count so that B starts on a phrase one and a bar one of A, and a moment of B meets one of A. */
export function* candidates(a: TrackCount, b: TrackCount, ratio: number, limits: SearchLimits): Generator<Frame> {
  const perBar = a.analysis.metre.beatsPerBar;
  const starts = b.bars.filter((bar, i) => i === 0 || bar.startsPhrase !== null);
  for (const leaving of leavingMoments(a)) {
    const outs = waysOut(a, leaving, limits.after * perBar);
    for (const arriving of arrivingMoments(b)) {
      for (const start of starts) {
        if (start.firstBeat > arriving.beat) break;
        const base = { a, b, ratio, leaving, arriving, from: leaving.beat, to: leaving.beat };
        const from = beatOfA(base, start.firstBeat);
        if (leaving.beat - from > limits.longest * perBar) continue;
        const one = barStartingAt(a, from);
        if (from < 0 || (one === null && from !== a.end)) continue;
        if (one !== null && one.number < limits.notBefore) continue;
        for (const to of outs) {
          const bars = (to - from) / perBar;
          if (bars < SHORTEST || bars > limits.longest) continue;
          const frame = { ...base, from, to };
          if (beatOfB(frame, to) <= b.end) yield frame;
        }
      }
    }
  }
}

/** Beats at which A can be out: the change-over itself, the phrase starts behind it, its end. */
function waysOut(a: TrackCount, leaving: Moment, longest: number): number[] {
  const starts = a.bars.filter((bar) => bar.startsPhrase !== null || (bar.phraseBar - 1) % 8 === 0);
  const behind = starts
    .map((bar) => bar.firstBeat)
    .filter((beat) => beat > leaving.beat && beat - leaving.beat <= longest);
  const end = a.end > leaving.beat && a.end - leaving.beat <= longest ? [a.end] : [];
  return [...new Set([leaving.beat, ...behind, ...end])];
}
