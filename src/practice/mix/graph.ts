import type { Fraction, Hertz, Seconds } from '../../units/index.js';
import type { Stereo } from '../sound/stereo.js';

/** A level that moves in straight lines between its points; before the first and behind the last it stays. */
export type Envelope = readonly { readonly time: Seconds; readonly level: Fraction }[];

/** Sound that is mixed: it begins at time 0. */
export interface Strand {
  readonly sound: Stereo;
  /** Level with its bass, and level without it; both are added up. */
  readonly whole: Envelope;
  readonly withoutBass?: Envelope;
}

/** Below this the bass is taken out, by two high-pass filters of second order one after the other. Common practice, no source. */
export const BASS_UP_TO: Hertz = 180;

/** Q of the high-pass filters in decibels: a flat passband (Butterworth, second order). */
export const BASS_Q = 20 * Math.log10(Math.SQRT1_2);

/** Level at a time. */
export function levelAt(envelope: Envelope, time: Seconds): Fraction {
  const next = envelope.findIndex((point) => point.time > time);
  if (next < 0) return envelope.at(-1)?.level ?? 0;
  if (next === 0) return envelope[0].level;
  const [p, q] = [envelope[next - 1], envelope[next]];
  return p.level + ((time - p.time) / (q.time - p.time)) * (q.level - p.level);
}
