import type { Fraction } from '../units/index.js';
import type { HeardBeat, Piece } from './piecewise.js';

/** Tempos that differ by less meet anywhere; and those of one clock, of which one was read off few beats. */
const LEAST_CHANGE: Fraction = 0.003;
const SAME_CLOCK: Fraction = 0.001;
/** A change lies within so many beats of where it was found, or of the last and first beat heard around it. */
const REACH = 6;
/** Two lines meet on a beat when they do within this share of one: one that goes on at another tempo does. */
const ON_BEAT: Fraction = 0.15;

type Line = Pick<Piece, 'offset' | 'period'>;

/**
 * Where the tempo changes without a break, two lines meet on the very beat: on arranged tracks within a twentieth of it, even
 * where nothing strikes for many bars around. The change is put there; where they do not meet on a beat near by, it stays.
 * A side that was read off few beats may go on with the line beside it, if that is of the same clock.
 */
export function meetingPieces(pieces: readonly Piece[], heard: readonly HeardBeat[]): Piece[] {
  const out = [...pieces];
  for (let i = 1; i < out.length; i++) {
    const [before, after] = [out[i - 1], out[i]];
    if (!apart(before, after, LEAST_CHANGE)) continue;
    const last = heard.findLast((h) => h.beat < after.from)?.beat ?? after.from;
    const first = heard.find((h) => h.beat >= after.from)?.beat ?? after.from;
    const near = (beat: number) =>
      beat >= Math.min(last, after.from) - REACH &&
      beat <= Math.max(first, after.from) + REACH &&
      beat > before.from &&
      beat < after.to;
    for (const [a, b] of pairs(before, out[i - 2], after, out[i + 1])) {
      const meeting = (a.offset - b.offset) / (b.period - a.period);
      const beat = Math.round(meeting);
      if (!near(beat) || Math.abs(meeting - beat) > ON_BEAT) continue;
      out[i - 1] = { ...before, offset: a.offset, period: a.period, to: beat };
      out[i] = { ...after, offset: b.offset, period: b.period, from: beat };
      break;
    }
  }
  return out;
}

/** Lines that may meet, a piece's own first. */
function pairs(before: Piece, earlier: Piece | undefined, after: Piece, later: Piece | undefined): [Line, Line][] {
  const sides = (own: Piece, beside?: Piece) => (beside && !apart(own, beside, SAME_CLOCK) ? [own, beside] : [own]);
  return sides(before, earlier).flatMap((a) => sides(after, later).map((b): [Line, Line] => [a, b]));
}

function apart(a: Line, b: Line, share: Fraction): boolean {
  return Math.abs(a.period / b.period - 1) >= share;
}
