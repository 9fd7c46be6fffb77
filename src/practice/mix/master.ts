import { createLoudnessMeter } from '../../loudness/index.js';
import type { Decibels, Lufs } from '../../units/index.js';
import { RATE, type Stereo } from '../sound/stereo.js';

/** How loud practice audio is unless somebody says otherwise; and the highest true peak of any of it. */
export const USUAL_LOUDNESS: Lufs = -16;
export const HIGHEST_PEAK: Decibels = -1;
/** Louder than this is refused: nobody needs louder clicks. */
export const LOUDEST: Lufs = -9;
/** Peaks are measured between the samples; lossy coding and rounding may add a little to them. */
const RESERVE: Decibels = 0.3;

/** What came out. */
export interface Level {
  readonly integratedLufs: Lufs | null;
  readonly truePeakDbtp: Decibels | null;
  /** Whether the peaks kept it under the loudness that was wanted. */
  readonly softer: boolean;
}

/**
 * Brings sound to a loudness in place, or as near to it as its true peak allows (ITU-R BS.1770-4). Nothing is squeezed:
 * where peaks stand in the way, all of it is softer.
 * @param reserve decibels that are kept free under the highest peak
 */
export function master(sound: Stereo, wanted: Lufs = USUAL_LOUDNESS, reserve: Decibels = RESERVE): Level {
  const before = measure(sound);
  if (before.truePeakDbtp === null) return { integratedLufs: null, truePeakDbtp: null, softer: false };
  const room = HIGHEST_PEAK - reserve - before.truePeakDbtp;
  const gain = before.integratedLufs === null ? Math.min(0, room) : Math.min(wanted - before.integratedLufs, room);
  const factor = 10 ** (gain / 20);
  for (const samples of [sound.left, sound.right]) for (let i = 0; i < samples.length; i++) samples[i] *= factor;
  const loud = before.integratedLufs === null ? null : before.integratedLufs + gain;
  return {
    integratedLufs: loud,
    truePeakDbtp: before.truePeakDbtp + gain,
    softer: loud !== null && loud < wanted - 0.1,
  };
}

/** Loudness and true peak of sound. */
export function measure({ left, right }: Stereo): Omit<Level, 'softer'> {
  const meter = createLoudnessMeter(RATE, 2);
  meter.push([left, right]);
  const { integratedLufs, truePeakDbtp } = meter.finish();
  return { integratedLufs, truePeakDbtp };
}
