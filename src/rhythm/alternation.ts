import type { OnsetCurves } from './onsets.js';
import { sampleAt } from './onsets.js';
import { ONSET_BANDS } from './onsets.js';

/** Names of the cues, in the order of `alternationCues`. */
export const ALTERNATION_CUES: readonly string[] = ONSET_BANDS.flatMap((_, b) => [
  `band ${b}, uneven over two beats`,
  `band ${b}, uneven over four beats`,
  `band ${b}, uneven over two half-beats`,
]);

/**
 * How unevenly the onsets of each band are shared between every second and every fourth beat: a kick and a snare that
 * take turns tell the level of the beat.
 */
export function alternationCues(onsets: OnsetCurves, bands: readonly Float32Array[], beats: Float64Array): number[] {
  return bands.flatMap((band) => {
    const folded = [0, 0, 0, 0];
    const halves = [0, 0, 0, 0];
    for (let b = 0; b + 1 < beats.length; b++) {
      folded[b & 3] += sampleAt(band, onsets.rate, onsets.start, beats[b]);
      halves[b & 3] += sampleAt(band, onsets.rate, onsets.start, (beats[b] + beats[b + 1]) / 2);
    }
    const uneven = (f: number[]) => {
      const total = f[0] + f[1] + f[2] + f[3] + 1e-9;
      return [Math.max(f[0] + f[2], f[1] + f[3]) / total, Math.max(...f) / total];
    };
    return [...uneven(folded), uneven(halves)[0]];
  });
}
