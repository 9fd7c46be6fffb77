import type { Seconds } from '../units/index.js';

/**
 * A beat sequence as annotated, on the off-beats, in double time, and in half time from its first and second beat.
 * @experimental
 */
export function metricalVariations(beats: readonly Seconds[]): Seconds[][] {
  const double: Seconds[] = [];
  beats.forEach((beat, i) => {
    if (i > 0) double.push((beats[i - 1] + beat) / 2);
    double.push(beat);
  });
  const every = (list: readonly Seconds[], parity: number) => list.filter((_, i) => i % 2 === parity);
  return [[...beats], every(double, 1), double, every(beats, 0), every(beats, 1)];
}
