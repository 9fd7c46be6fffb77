import { median as medianOfSome } from '../units/index.js';
import type { TappedOne, TapScore } from './taps.js';

/** What the errors of a practice have in common. */
export interface TapPattern {
  /** Ones that were heard, that were tapped on the right beat, and that no tap came near. */
  readonly heard: number;
  readonly right: number;
  readonly missed: number;
  readonly extra: number;
  /** Median error of the taps on the right beat, in milliseconds; negative is early; `null` without such taps. */
  readonly bias: number | null;
  /** Mean distance from that median, in milliseconds: how steady. */
  readonly spread: number | null;
  /** By how many beats most taps are off when they share one distance other than 0; else 0. */
  readonly beatsOff: number;
  /** Ones after a phrase of unusual length, and how many of these were tapped on the right beat. */
  readonly afterOdd: { readonly heard: number; readonly right: number };
}

/** A tap is on the right beat when no other beat is nearer. */
const RIGHT = 0.5;

/** Sums up a practice. */
export function tapPattern({ ones, extra }: TapScore): TapPattern {
  const tapped = ones.filter((one) => one.errorBeats !== null);
  const right = tapped.filter(isRight);
  const errors = right.map((one) => 1000 * one.errorSeconds!);
  const bias = median(errors);
  const odd = ones.filter((one) => one.afterOddPhrase);
  return {
    heard: ones.length,
    right: right.length,
    missed: ones.length - tapped.length,
    extra,
    bias,
    spread: bias === null ? null : mean(errors.map((error) => Math.abs(error - bias))),
    beatsOff: sharedOffset(tapped),
    afterOdd: { heard: odd.length, right: odd.filter(isRight).length },
  };
}

export function isRight({ errorBeats }: TappedOne): boolean {
  return errorBeats !== null && Math.abs(errorBeats) < RIGHT;
}

function sharedOffset(tapped: readonly TappedOne[]): number {
  const counts = new Map<number, number>();
  for (const one of tapped) {
    const beats = Math.round(one.errorBeats!);
    counts.set(beats, (counts.get(beats) ?? 0) + 1);
  }
  const [most] = [...counts].sort((a, b) => b[1] - a[1]);
  return most && most[1] >= 2 && most[1] > tapped.length / 2 ? most[0] + 0 : 0;
}

function mean(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}

function median(values: readonly number[]): number | null {
  return values.length === 0 ? null : medianOfSome(values);
}

/** Below this, in milliseconds, early and late cannot be felt. */
const FELT = 15;
/** Steady taps lie this close together, in milliseconds. */
const STEADY = 25;

/** The pattern in sentences, the most useful first. @param target what was tapped: "phrase one" or "group one" */
export function patternWords(pattern: TapPattern, target: string, beatsPerBar: number): string[] {
  const { heard, right, missed, extra, bias, spread, beatsOff, afterOdd } = pattern;
  if (heard === 0) return [`No ${target} came by: let the music run over the next one.`];
  const words = [`${right} of ${heard} on the right beat.`];
  if (beatsOff !== 0)
    words.push(`Mostly ${beatsText(beatsOff, beatsPerBar)}: your count is shifted, the pulse is there.`);
  if (bias !== null && spread !== null && right > 0) {
    const steady =
      right < 3
        ? ''
        : spread <= STEADY
          ? `, and steady (±${Math.round(spread)} ms)`
          : `, but uneven (±${Math.round(spread)} ms)`;
    words.push(`${biasText(bias)}${steady}.`);
  }
  if (missed > 0) words.push(`${missed} let by without a tap.`);
  if (extra > 0) words.push(`${extra} ${extra === 1 ? 'tap' : 'taps'} more than there were ones.`);
  if (afterOdd.heard > 0 && afterOdd.right < afterOdd.heard && right - afterOdd.right > 0)
    words.push('What went wrong came after a phrase of unusual length: count its bars aloud once.');
  return words;
}

function biasText(bias: number): string {
  if (Math.abs(bias) < FELT) return 'In time';
  return `${Math.round(Math.abs(bias))} ms ${bias < 0 ? 'early' : 'late'} as a rule`;
}

/** "4 beats late (a bar)", "1 beat early". */
export function beatsText(beats: number, beatsPerBar: number): string {
  const n = Math.abs(beats);
  const bars = n % beatsPerBar === 0 ? n / beatsPerBar : 0;
  const also = bars === 0 ? '' : bars === 1 ? ' (a bar)' : ` (${bars} bars)`;
  return `${n} ${n === 1 ? 'beat' : 'beats'} ${beats < 0 ? 'early' : 'late'}${also}`;
}
