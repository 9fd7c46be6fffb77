import { foldOn } from './beat-places.js';
import type { OnsetCurves } from './onsets.js';
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
    // On every fourth beat, and half-way to the next, from the first to the fourth on.
    const folded = foldOn(band, onsets, beats, 2, 4);
    return [...uneven(everySecond(folded, 0)), uneven(everySecond(folded, 1))[0]];
  });
}

function everySecond(values: Float64Array, from: number): Float64Array {
  return values.filter((_, i) => i % 2 === from);
}

/** Shares of the greater of every other, and of the greatest of four. */
function uneven(f: Float64Array): [number, number] {
  const total = f[0] + f[1] + f[2] + f[3] + 1e-9;
  return [Math.max(f[0] + f[2], f[1] + f[3]) / total, Math.max(f[0], f[1], f[2], f[3]) / total];
}
