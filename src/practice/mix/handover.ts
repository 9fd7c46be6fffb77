import type { Seconds } from '../../units/index.js';
import type { Envelope, Strand } from './graph.js';

/**
 * How one record hands over to the other: `swap`, B comes in without its bass, and the basses are swapped as B takes
 * over; `blend`, a crossfade of the whole sound; `both`, both at full level throughout, for hearing how they lie.
 * @experimental
 */
export const FADE_SHAPES = ['swap', 'blend', 'both'] as const;
/** One of `FADE_SHAPES`. @experimental */
export type FadeShape = (typeof FADE_SHAPES)[number];

/** Moments of a handover on the clock of the rehearsal. */
export interface HandoverTimes {
  readonly start: Seconds;
  /** B takes the lead; the basses are swapped within a beat before it. */
  readonly swap: Seconds;
  readonly out: Seconds;
  readonly beat: Seconds;
}

/** A cut that is not heard as a click. */
const SHORT: Seconds = 0.008;
/** Level of a record that comes in: it is heard from its first beat, and has full level half-way to the swap. */
const ENTRY = 0.5;
/** Level of both where they play at full level throughout. */
const TOGETHER = 0.7;

/** The levels of both records through the handover. */
export function handover(
  shape: FadeShape,
  times: HandoverTimes,
): { readonly a: Omit<Strand, 'sound'>; readonly b: Omit<Strand, 'sound'> } {
  const { start, swap, out } = times;
  const end = Math.max(out, swap + SHORT);
  const gone: Envelope = [
    { time: 0, level: 1 },
    { time: Math.max(swap, 0), level: 1 },
    { time: end, level: 0 },
  ];
  if (shape === 'both') {
    const on = (from: Seconds): Envelope => [
      { time: Math.max(0, from - SHORT), level: from > 0 ? 0 : TOGETHER },
      { time: from, level: TOGETHER },
    ];
    return {
      a: {
        whole: [
          { time: 0, level: TOGETHER },
          { time: end, level: TOGETHER },
          { time: end + SHORT, level: 0 },
        ],
      },
      b: { whole: on(start) },
    };
  }
  if (shape === 'blend') {
    return { a: { whole: equalPower(start, end, false) }, b: { whole: equalPower(start, end, true) } };
  }
  return swapping(times, gone);
}

/** Equal power: the squares of both levels add up to 1 all the way. */
function equalPower(start: Seconds, end: Seconds, rising: boolean): Envelope {
  const STEPS = 32;
  return Array.from({ length: STEPS + 1 }, (_, i) => {
    const angle = (i / STEPS) * (Math.PI / 2);
    return { time: start + (i / STEPS) * (end - start), level: rising ? Math.sin(angle) : Math.cos(angle) };
  });
}

function swapping({ start, swap, beat }: HandoverTimes, gone: Envelope) {
  const quick = Math.min(beat / 2, Math.max(SHORT, (swap - start) / 4));
  const [open, full] = [Math.max(start, SHORT), start + (swap - start) / 2];
  const whole: Envelope = [
    { time: 0, level: 0 },
    { time: Math.max(swap - quick, open), level: 0 },
    { time: Math.max(swap, open + SHORT), level: 1 },
  ];
  const withoutBass: Envelope =
    swap - start < 4 * SHORT
      ? [{ time: 0, level: 0 }]
      : [
          { time: 0, level: 0 },
          { time: open - SHORT, level: 0 },
          { time: open, level: ENTRY },
          { time: full, level: 1 },
          { time: swap - quick, level: 1 },
          { time: swap, level: 0 },
        ];
  const last = gone[gone.length - 1];
  const leaving: Envelope = [
    { time: 0, level: 1 },
    { time: Math.max(swap - quick, SHORT), level: 1 },
    { time: Math.max(swap, 2 * SHORT), level: 0 },
  ];
  const withoutItsBass: Envelope =
    last.time - swap <= SHORT * 2
      ? [{ time: 0, level: 0 }]
      : [
          { time: 0, level: 0 },
          { time: Math.max(swap - quick, SHORT), level: 0 },
          { time: swap, level: 1 },
          { time: swap + (last.time - swap) / 2, level: 0.9 },
          { time: last.time, level: 0 },
        ];
  return { a: { whole: leaving, withoutBass: withoutItsBass }, b: { whole, withoutBass } };
}
