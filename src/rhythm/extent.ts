import type { FrontEnd } from '../signal/index.js';
import type { Seconds } from '../units/index.js';

/** Sound is what is above this share of the mean power (−60 dB). */
const AUDIBLE = 1e-6;

/** Where the music starts and ends: the first and last audible 10 ms. */
export function soundExtent(frontEnd: FrontEnd): { start: Seconds; end: Seconds } {
  const { values, columns, rows, rate, start } = frontEnd.stereo;
  const limit = frontEnd.meanPower * AUDIBLE;
  let first = 0;
  while (first < rows && values[first * columns] + values[first * columns + 1] <= limit) first++;
  let last = rows - 1;
  while (last > first && values[last * columns] + values[last * columns + 1] <= limit) last--;
  return {
    start: Math.max(0, start + (first - 0.5) / rate),
    end: Math.min(frontEnd.duration, start + (last + 0.5) / rate),
  };
}
