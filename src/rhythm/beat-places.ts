import { borrowKernels } from '../signal/index.js';
import type { Seconds } from '../units/index.js';
import type { OnsetCurves } from './onsets.js';

/** The clock of a curve. */
type Clock = Pick<OnsetCurves, 'rate' | 'start'>;

/**
 * A curve read at even places of each beat, as `sampleAt` reads it: `places` values a beat, none higher than `most`.
 * @param beats one time more than there are beats
 */
export function atPlaces(
  curve: Float32Array,
  { rate, start }: Clock,
  beats: ArrayLike<Seconds>,
  places: number,
  most = Infinity,
): Float64Array {
  const count = Math.max(0, beats.length - 1);
  const kernels = borrowKernels(4 * curve.length + 8 * (beats.length + count * places));
  const [values, times, out] = [kernels.floats(curve.length), kernels.doubles(beats), kernels.doubles(count * places)];
  values.view.set(curve);
  kernels.loops.within(values.at, curve.length, rate, start, times.at, count, places, most, out.at);
  return out.view.slice();
}

/**
 * The same summed over the beats: one value a place.
 * @param turns beats that take turns: the places of the first of them, then of the second …
 */
export function foldOn(
  curve: Float32Array,
  { rate, start }: Clock,
  beats: ArrayLike<Seconds>,
  places: number,
  turns = 1,
): Float64Array {
  const kernels = borrowKernels(4 * curve.length + 8 * (beats.length + places * turns));
  const [values, times, sums] = [kernels.floats(curve.length), kernels.doubles(beats), kernels.doubles(places * turns)];
  values.view.set(curve);
  const count = Math.max(0, beats.length - 1);
  kernels.loops.folded(values.at, curve.length, rate, start, times.at, count, places, turns, sums.at);
  return sums.view.slice();
}

/** Sums of a curve at some times, for each of `later` so much later than those. */
export function foldLater(
  curve: Float32Array,
  { rate, start }: Clock,
  times: ArrayLike<Seconds>,
  later: ArrayLike<Seconds>,
): Float64Array {
  const kernels = borrowKernels(4 * curve.length + 8 * (times.length + 2 * later.length));
  const [values, at] = [kernels.floats(curve.length), kernels.doubles(times)];
  const [offs, sums] = [kernels.doubles(later), kernels.doubles(later.length)];
  values.view.set(curve);
  kernels.loops.foldedLater(values.at, curve.length, rate, start, at.at, times.length, offs.at, later.length, sums.at);
  return sums.view.slice();
}
