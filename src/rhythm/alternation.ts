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
    const folded = foldedByFour(onsets, band, beats, 0);
    const halves = foldedByFour(onsets, band, beats, 0.5);
    return [...uneven(folded), uneven(halves)[0]];
  });
}

/** Onsets on every fourth beat, or as far behind it, from the first to the fourth on. */
function foldedByFour(onsets: OnsetCurves, band: Float32Array, beats: Float64Array, place: 0 | 0.5): Float64Array {
  const folded = new Float64Array(4);
  for (let b = 0; b + 1 < beats.length; b++) {
    const time = place === 0 ? beats[b] : (beats[b] + beats[b + 1]) / 2;
    folded[b & 3] += sampleAt(band, onsets.rate, onsets.start, time);
  }
  return folded;
}

/** Shares of the greater of every other, and of the greatest of four. */
function uneven(f: Float64Array): [number, number] {
  const total = f[0] + f[1] + f[2] + f[3] + 1e-9;
  return [Math.max(f[0] + f[2], f[1] + f[3]) / total, Math.max(f[0], f[1], f[2], f[3]) / total];
}
