import { createLoudnessMeter } from '../../loudness/index.js';
import type { Decibels, Lufs } from '../../units/index.js';
import { limit } from './limiter.js';
import { RATE, type Stereo } from '../sound/stereo.js';

/** How loud practice audio is unless somebody says otherwise; and the highest true peak of any of it. @experimental */
export const USUAL_LOUDNESS: Lufs = -16;
/** The highest true peak of any practice audio (dBTP), after ITU-R BS.1770. @experimental */
export const HIGHEST_PEAK: Decibels = -1;
/** Louder than this is refused: nobody needs louder clicks. @experimental */
export const LOUDEST: Lufs = -9;
/** Peaks are measured between the samples; lossy coding and rounding may add a little to them. */
const RESERVE: Decibels = 0.3;

/** What came out. @experimental */
export interface Level {
  readonly integratedLufs: Lufs | null;
  readonly truePeakDbtp: Decibels | null;
  /** Whether the peaks kept it under the loudness that was wanted. */
  readonly softer: boolean;
}

/** Peaks may be held down by so much; beyond it all of the sound is softer, because holding them down would be heard. */
const MOST_HELD: Decibels = 3;

/**
 * Brings sound to a loudness in place, or as near to it as its true peak allows (ITU-R BS.1770-4). Peaks are held down by 3 dB
 * at most; where that is not enough, all of it is softer.
 * @param reserve decibels that are kept free under the highest peak
 */
export function master(sound: Stereo, wanted: Lufs = USUAL_LOUDNESS, reserve: Decibels = RESERVE): Level {
  const before = measure(sound);
  if (before.truePeakDbtp === null) return { integratedLufs: null, truePeakDbtp: null, softer: false };
  const ceiling = HIGHEST_PEAK - reserve;
  const room = ceiling - before.truePeakDbtp;
  const needed = before.integratedLufs === null ? Math.min(0, room) : wanted - before.integratedLufs;
  const gain = Math.min(needed, room + MOST_HELD);
  amplify(sound, gain);
  let after = {
    integratedLufs: before.integratedLufs === null ? null : before.integratedLufs + gain,
    truePeakDbtp: before.truePeakDbtp + gain,
  };
  if (gain > room) {
    limit(sound, 10 ** (ceiling / 20));
    // holding down costs a little loudness, and a peak between the samples may still stand out: one last correction
    const held = measure(sound);
    const last = Math.min(wanted - (held.integratedLufs ?? wanted), ceiling - (held.truePeakDbtp ?? ceiling));
    amplify(sound, last);
    after = {
      integratedLufs: held.integratedLufs === null ? null : held.integratedLufs + last,
      truePeakDbtp: (held.truePeakDbtp ?? ceiling) + last,
    };
  }
  const softer = after.integratedLufs !== null && after.integratedLufs < wanted - 0.5;
  return { ...after, softer };
}

function amplify({ left, right }: Stereo, gain: Decibels): void {
  const factor = 10 ** (gain / 20);
  for (const samples of [left, right]) for (let i = 0; i < samples.length; i++) samples[i] *= factor;
}

/** Loudness and true peak of sound. */
export function measure({ left, right }: Stereo): Omit<Level, 'softer'> {
  const meter = createLoudnessMeter(RATE, 2);
  meter.push([left, right]);
  const { integratedLufs, truePeakDbtp } = meter.finish();
  return { integratedLufs, truePeakDbtp };
}
