import { barAt, barStartingAt, timeOfBeat, type CountedBar, type TrackCount } from './count.js';
import type { Moment } from './moments.js';
import type { AlignedStretch, Place } from './places.js';

/** Two counts laid on each other at the moment where B takes over. */
export interface Frame {
  readonly a: TrackCount;
  readonly b: TrackCount;
  /** Beats of B on one beat of A. */
  readonly ratio: number;
  readonly leaving: Moment;
  readonly arriving: Moment;
  /** Beats of A: where B starts, and where A is out. */
  readonly from: number;
  readonly to: number;
}

/** The beat of B that falls on a beat of A. */
export function beatOfB({ ratio, leaving, arriving }: Frame, beatA: number): number {
  return arriving.beat + (beatA - leaving.beat) * ratio;
}

/** The beat of A that a beat of B falls on. */
export function beatOfA({ ratio, leaving, arriving }: Frame, beatB: number): number {
  return leaving.beat + (beatB - arriving.beat) / ratio;
}

/** Bars of A that lie in the overlap. */
export function overlapBars({ a, from, to }: Frame): CountedBar[] {
  return a.bars.filter((bar) => bar.firstBeat >= from && bar.firstBeat < to);
}

/** A one as a place; the end of a record is the bar behind its last. */
export function placeAt(count: TrackCount, beat: number): Place {
  const time = timeOfBeat(count, beat);
  const bar = barAt(count, Math.min(beat, count.end - 1));
  if (bar === null) return { bar: 0, groupBar: 1, phraseBar: 1, time, beat };
  if (beat >= count.end) {
    return { bar: bar.number + 1, groupBar: (bar.groupBar % 4) + 1, phraseBar: 1, time, beat };
  }
  return { bar: bar.number, groupBar: bar.groupBar, phraseBar: bar.phraseBar, time, beat };
}

/** How B's ones lie against A's, stretch by stretch; the record with fewer bars is walked through. */
export function alignmentOf(frame: Frame): AlignedStretch[] {
  const { a, b, ratio } = frame;
  const stretches: { fromA: number; toA: number; beats: number }[] = [];
  const add = (barA: CountedBar | null, beats: number): void => {
    if (barA === null) return;
    const last = stretches.at(-1);
    if (last?.beats === beats) last.toA = barA.number;
    else stretches.push({ fromA: barA.number, toA: barA.number, beats });
  };
  if (ratio >= 1) {
    for (const bar of overlapBars(frame)) {
      const beatB = beatOfB(frame, bar.firstBeat);
      const other = barAt(b, beatB);
      if (other !== null) add(bar, afterOne(beatB - other.firstBeat, other.beats, ratio));
    }
    return stretches;
  }
  for (const bar of b.bars) {
    const beatA = beatOfA(frame, bar.firstBeat);
    if (beatA < frame.from || beatA >= frame.to) continue;
    const other = barAt(a, beatA);
    if (other !== null) add(other, -afterOne(beatA - other.firstBeat, other.beats, 1));
  }
  return stretches;
}

/** Beats by which B's next or last one lies behind A's one, as few as can be: positive when it comes late. */
function afterOne(into: number, beats: number, ratio: number): number {
  const late = into * 2 <= beats ? -into : beats - into;
  return late / ratio + 0; // no minus zero
}

/** Phrase starts of either record in the overlap that fall on a phrase start of the other, and how many there are of the rarer. */
export function phraseAgreement(frame: Frame): { readonly agree: number; readonly of: number } {
  const { a, b, from, to } = frame;
  const inside = (beat: number) => beat >= from && beat < to;
  const ofA = a.bars.filter((bar) => bar.startsPhrase !== null && inside(bar.firstBeat)).map((bar) => bar.firstBeat);
  const ofB = b.bars
    .filter((bar) => bar.startsPhrase !== null)
    .map((bar) => beatOfA(frame, bar.firstBeat))
    .filter(inside);
  const agree = ofA.filter((beat) => ofB.some((other) => Math.abs(other - beat) < 0.25)).length;
  return { agree, of: Math.min(ofA.length, ofB.length) };
}

/** Whether a beat of A is the one of a bar, and of which. */
export function oneOfA(frame: Frame, beat: number): CountedBar | null {
  return barStartingAt(frame.a, beat);
}
