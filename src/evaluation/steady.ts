import type { Bpm, Seconds } from '../units/index.js';

/** Music made to a clock keeps within this of one straight line from its first beat to its last: half the beat window. */
const STRAIGHT: Seconds = 0.035;
/** Fewer beats than this say little about thousandths of a BPM. */
const FEWEST = 16;

/**
 * The one tempo of beats that lie on a straight line (least squares), for judging a tempo to thousandths of a BPM.
 *
 * @experimental
 * @returns null when a beat is more than 35 ms off the line (tempo changes, drift), or when there are fewer than 16 beats
 */
export function steadyTempo(beats: readonly Seconds[]): Bpm | null {
  const n = beats.length;
  if (n < FEWEST) return null;
  const middle = (n - 1) / 2;
  const mean = beats.reduce((a, b) => a + b, 0) / n;
  let product = 0;
  let square = 0;
  beats.forEach((time, i) => {
    product += (i - middle) * (time - mean);
    square += (i - middle) ** 2;
  });
  const period = product / square;
  const straight = beats.every((time, i) => Math.abs(time - mean - period * (i - middle)) <= STRAIGHT);
  return straight ? 60 / period : null;
}
