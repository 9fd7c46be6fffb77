import type { BarNumber, Seconds } from '../units/index.js';
import { lastAtOrBefore } from './position.js';
import type { TrackView } from './view.js';

/** The ones that a person taps along with. */
export type TapTarget = 'phrase' | 'group';

/** A stretch of the track that was heard without a jump, and the taps in it. Times are seconds of the track. */
export interface TapPass {
  readonly from: Seconds;
  readonly to: Seconds;
  readonly taps: readonly Seconds[];
  /** It follows on from the pass before, as the rounds of a loop do: its first one could be felt coming. */
  readonly follows: boolean;
}

/** A one that was heard, and the tap that was meant for it. */
export interface TappedOne {
  readonly bar: BarNumber;
  readonly time: Seconds;
  /** `null` when no tap came near it. */
  readonly tap: Seconds | null;
  /** Tap less one: negative is early. */
  readonly errorSeconds: Seconds | null;
  readonly errorBeats: number | null;
  /** The phrase that ends here was longer or shorter than is usual in the track. */
  readonly afterOddPhrase: boolean;
}

export interface TapScore {
  readonly ones: readonly TappedOne[];
  /** Taps that belong to no one. */
  readonly extra: number;
}

/** Beats that must be heard before a one can be asked for. */
const LEAD_BEATS = 2;
/** A tap this close before the end of a round belongs to the one that the next round starts on. */
const EARLY: Seconds = 0.6;

/**
 * Matches taps with the ones that were heard. A tap belongs to the one that is nearest; of several the best counts and
 * the rest are extra. Distances are measured in time and along the beats of the track, whatever its tempo does.
 * @param delay seconds that the device takes from sound to tap; taken off every tap
 */
export function scoreTaps(
  view: TrackView,
  target: TapTarget,
  passes: readonly TapPass[],
  delay: Seconds = 0,
): TapScore {
  const all = onesOf(view, target);
  const ones: TappedOne[] = [];
  let extra = 0;
  carriedOver(passes, delay).forEach(({ from, to, taps, follows }) => {
    const lead = follows ? -EARLY : LEAD_BEATS * beatSeconds(view, from);
    const heard = all.filter((one) => one.time >= from + lead && one.time < to);
    const tapsOf = heard.map((): Seconds[] => []);
    for (const tap of taps) {
      const nearest = nearestIndex(heard, tap);
      if (nearest < 0) extra++;
      else tapsOf[nearest].push(tap);
    }
    heard.forEach((one, i) => {
      const best = tapsOf[i].reduce<Seconds | null>(
        (kept, tap) => (kept === null || Math.abs(tap - one.time) < Math.abs(kept - one.time) ? tap : kept),
        null,
      );
      extra += Math.max(tapsOf[i].length - 1, 0);
      ones.push({
        ...one,
        tap: best,
        errorSeconds: best === null ? null : best - one.time,
        errorBeats: best === null ? null : beatPosition(view, best) - beatPosition(view, one.time),
      });
    });
  });
  return { ones, extra };
}

type One = Pick<TappedOne, 'bar' | 'time' | 'afterOddPhrase'>;

function onesOf(view: TrackView, target: TapTarget): One[] {
  const { phrases } = view.analysis;
  const before = new Map(phrases.map((phrase, i) => [phrase.startBar, phrases[i - 1]]));
  return view.bars
    .filter((bar) => bar.number >= 1 && (target === 'phrase' ? bar.phraseBar === 1 : bar.groupBar === 1))
    .map((bar) => ({
      bar: bar.number,
      time: bar.start,
      afterOddPhrase: before.get(bar.number)?.regular === false,
    }));
}

/** Takes the delay off, and gives a tap that anticipated the start of the next round to that round. */
function carriedOver(passes: readonly TapPass[], delay: Seconds): TapPass[] {
  const result = passes.map((pass) => ({ ...pass, taps: pass.taps.map((tap) => tap - delay) }));
  result.forEach((pass, i) => {
    const next = result[i + 1];
    if (!next?.follows) return;
    const early = pass.taps.filter((tap) => tap > pass.to - EARLY);
    pass.taps = pass.taps.filter((tap) => tap <= pass.to - EARLY);
    next.taps = [...early.map((tap) => next.from - (pass.to - tap)), ...next.taps];
  });
  return result;
}

function nearestIndex(ones: readonly One[], tap: Seconds): number {
  let best = -1;
  ones.forEach((one, i) => {
    if (best < 0 || Math.abs(one.time - tap) < Math.abs(ones[best].time - tap)) best = i;
  });
  return best;
}

/** Where a time lies among the beats: 3.5 is half-way between beats 3 and 4, counted from 0; goes on before and after. */
export function beatPosition({ beats }: TrackView, time: Seconds): number {
  if (beats.length < 2) return 0;
  const i = Math.min(Math.max(lastAtOrBefore(beats, time), 0), beats.length - 2);
  return i + (time - beats[i]) / (beats[i + 1] - beats[i]);
}

function beatSeconds({ beats }: TrackView, time: Seconds): Seconds {
  if (beats.length < 2) return 0.5;
  const i = Math.min(Math.max(lastAtOrBefore(beats, time), 0), beats.length - 2);
  return beats[i + 1] - beats[i];
}
