import type { Seconds } from '../units/index.js';
import type { AnalysisIrregularity } from '../track/index.js';
import type { Deck, MatchRemark } from '../wording/index.js';
import type { TrackCount } from './count.js';
import { barNumbered, timeOfBeat } from './count.js';
import { beatOfA, beatOfB, type Frame } from './frame.js';
import type { AlignedStretch } from './places.js';

/** What an irregularity of either record in the overlap does to the alignment. */
export function irregularitiesIn(frame: Frame, alignment: readonly AlignedStretch[]): MatchRemark[] {
  return [...ofDeck(frame, 'a', alignment), ...ofDeck(frame, 'b', alignment)];
}

function ofDeck(frame: Frame, deck: Deck, alignment: readonly AlignedStretch[]): MatchRemark[] {
  const count = frame[deck];
  return count.analysis.irregularities.flatMap((found): MatchRemark[] => {
    if (found.kind === 'drift') return [];
    const at = beatInA(frame, deck, count, found);
    if (at === null || at <= frame.from - 0.5 || at >= frame.to - 0.5) return [];
    const effect = effectOf(frame, found, at, alignment);
    return [{ kind: 'irregular-in-overlap', deck, sentence: found.explanation, bar: found.bar, effect }];
  });
}

function beatInA(frame: Frame, deck: Deck, count: TrackCount, { bar }: AnalysisIrregularity): number | null {
  const counted = barNumbered(count, bar);
  if (counted === null) return null;
  return deck === 'a' ? counted.firstBeat : beatOfA(frame, counted.firstBeat);
}

function effectOf(
  frame: Frame,
  { kind }: AnalysisIrregularity,
  at: number,
  alignment: readonly AlignedStretch[],
): 'none' | 'phrases-part' | 'ones-part' | 'absorbed' | 'nudge' {
  // Counted from the change-over: what lies before it is made good by where B starts.
  if (kind === 'tempo-change') return 'nudge';
  if (kind === 'pick-up' || kind === 'half-time' || kind === 'beatless-passage') return 'none';
  if (alignment.some((stretch) => stretch.beats !== 0)) return at < frame.leaving.beat ? 'absorbed' : 'ones-part';
  if (kind === 'added-beats' || kind === 'dropped-beats') return 'none';
  return at <= frame.leaving.beat ? 'absorbed' : 'phrases-part';
}

/** The largest distance between beats of A and of B, when both play at one steady speed each through the overlap. */
export function largestDrift(frame: Frame): { readonly deck: Deck; readonly seconds: Seconds } {
  const lines = (['a', 'b'] as const).map((deck) => ({ deck, seconds: bend(frame, deck) }));
  const worst = lines[0].seconds >= lines[1].seconds ? lines[0] : lines[1];
  return { deck: worst.deck, seconds: lines[0].seconds + lines[1].seconds };
}

/** How far the beats of a record stray from a straight line through the overlap. */
function bend(frame: Frame, deck: Deck): Seconds {
  const count = frame[deck];
  const place = (beat: number) => (deck === 'a' ? beat : beatOfB(frame, beat));
  const [first, last] = [place(frame.from), place(frame.to)];
  const start = timeOfBeat(count, first);
  const slope = (timeOfBeat(count, last) - start) / (last - first || 1);
  let largest = 0;
  for (let beat = Math.ceil(first); beat < last; beat++) {
    largest = Math.max(largest, Math.abs(timeOfBeat(count, beat) - start - (beat - first) * slope));
  }
  return largest;
}
