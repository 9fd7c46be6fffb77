import { butterworth, settled } from './biquad.js';
import { ANALYSIS_RATE, COARSE, FINE } from './frontend.js';
import type { Growing } from './growing.js';
import { pairs, type Kernels, type Room } from './kernels/kernels.js';

/** Power of middle and side over the 10 ms around each coarse frame's centre. */
export function createStereoMeter({ loops }: Kernels, rows: Growing) {
  let mid = 0;
  let side = 0;
  let left = COARSE.hop / 2; // the first frame is centred on 0 and so has half a hop
  return (m: Room<Float32Array>, s: Room<Float32Array>, length: number): void => {
    for (let from = 0; from < length;) {
      const count = Math.min(length - from, Math.ceil(left));
      mid += loops.energy(m.at + from * 4, count);
      side += loops.energy(s.at + from * 4, count);
      left -= count;
      from += count;
      if (left <= 0) {
        const at = rows.next();
        rows.data[at] = mid / COARSE.hop;
        rows.data[at + 1] = side / COARSE.hop;
        mid = side = 0;
        left += COARSE.hop;
      }
    }
  };
}

const LOW = butterworth('low', 150, ANALYSIS_RATE);
const HIGH = butterworth('high', 5000, ANALYSIS_RATE);

/** Where the state of the fine meter stands: memory of both filters, energies below and above, sample before, difference. */
const STATE = { filters: 0, lows: 4, highs: 5, before: 6, difference: 7, length: 8 } as const;
/** In the order of the columns. */
const ENERGIES = [STATE.difference, STATE.lows, STATE.highs] as const;

/** Energies of whole milliseconds: first difference, below 150 Hz, above 5 kHz. */
export function createFineMeter(kernels: Kernels, rows: Growing) {
  const perRow = ANALYSIS_RATE / FINE.rate;
  const coefficients = [LOW, HIGH].map(({ b0, b1, b2, a1, a2 }) => [b0, b1, b2, a1, a2]);
  const filters = kernels.doubles(pairs(coefficients[0], coefficients[1]));
  const { at: place, view: state } = kernels.doubles(Array.from({ length: STATE.length }, () => 0));
  let count = 0;
  let edge = perRow;
  return (m: Room<Float32Array>, length: number): void => {
    for (let from = 0; from < length;) {
      const to = Math.min(length, from + Math.ceil(edge - count));
      kernels.loops.fine(m.at + from * 4, to - from, filters.at, place);
      for (let i = STATE.filters; i < STATE.lows; i++) state[i] = settled(state[i]);
      count += to - from;
      from = to;
      if (count < edge) continue;
      const at = rows.next();
      ENERGIES.forEach((of, column) => {
        rows.data[at + column] = state[of];
        state[of] = 0;
      });
      edge += perRow;
    }
  };
}
