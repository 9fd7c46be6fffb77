import type { TrackAnalysis } from '../track/index.js';
import type { TrackMatch } from './places.js';

/** How loud B is against A, and the gain that makes them equal by turning the louder one down: nothing is ever raised. */
export function loudnessMeeting(a: TrackAnalysis, b: TrackAnalysis): TrackMatch['loudness'] {
  const [loudA, loudB] = [a.loudness.integratedLufs, b.loudness.integratedLufs];
  if (loudA === null || loudB === null) return null;
  const difference = loudB - loudA;
  return { differenceLu: difference, gainA: Math.min(0, difference) + 0, gainB: -Math.max(0, difference) + 0 };
}
