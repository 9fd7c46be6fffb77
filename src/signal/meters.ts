import { butterworth } from './biquad.js';
import { ANALYSIS_RATE, COARSE, FINE } from './frontend.js';
import type { Growing } from './growing.js';
import { pairs, type Kernels, type Room } from './kernels/kernels.js';

/**
 * Power of middle and side over the 10 ms around each coarse frame's centre.
 * @param most samples that come at a time
 */
export function createStereoMeter(kernels: Kernels, rows: Growing, most: number) {
  // The first frame is centred on 0 and so has half a hop.
  const state = kernels.doubles([0, 0, COARSE.hop / 2]);
  const out = kernels.floats(2 * (Math.ceil(most / COARSE.hop) + 1));
  return (m: Room<Float32Array>, s: Room<Float32Array>, length: number): void => {
    const count = kernels.loops.stereoRows(m.at, s.at, length, COARSE.hop, state.at, out.at);
    rows.append(out.view.subarray(0, 2 * count));
  };
}

const LOW = butterworth('low', 150, ANALYSIS_RATE);
const HIGH = butterworth('high', 5000, ANALYSIS_RATE);

/** Numbers in the state of the fine meter: last two outputs of both filters, energies, the last two samples. */
const STATE = 9;
const COLUMNS = 3;

/**
 * Energies of whole milliseconds: first difference, below 150 Hz, above 5 kHz.
 * @param most samples that come at a time
 */
export function createFineMeter(kernels: Kernels, rows: Growing, most: number) {
  const perRow = ANALYSIS_RATE / FINE.rate;
  const coefficients = [LOW, HIGH].map(({ b0, b1, b2, a1, a2 }) => [b0, b1, b2, a1, a2]);
  const filters = kernels.doubles(pairs(coefficients[0], coefficients[1]));
  const state = kernels.doubles(new Array<number>(STATE).fill(0));
  const clock = kernels.doubles([0, perRow]);
  const out = kernels.floats(COLUMNS * (Math.ceil(most / perRow) + 1));
  return (m: Room<Float32Array>, length: number): void => {
    const count = kernels.loops.fineRows(m.at, length, perRow, filters.at, state.at, clock.at, out.at);
    rows.append(out.view.subarray(0, COLUMNS * count));
  };
}
