import { butterworth, createBlockFilter } from './biquad.js';
import { ANALYSIS_RATE, COARSE, FINE } from './frontend.js';
import type { Growing } from './growing.js';

/** Power of middle and side over the 10 ms around each coarse frame's centre. */
export function createStereoMeter(rows: Growing) {
  let mid = 0;
  let side = 0;
  let left = COARSE.hop / 2; // the first frame is centred on 0 and so has half a hop
  return (m: Float32Array, s: Float32Array | null): void => {
    for (let from = 0; from < m.length;) {
      const to = Math.min(m.length, from + Math.ceil(left));
      mid += energy(m, from, to);
      if (s) side += energy(s, from, to);
      left -= to - from;
      from = to;
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

function energy(samples: Float32Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += samples[i] * samples[i];
  return sum;
}

/** Energies of whole milliseconds: first difference, below 150 Hz, above 5 kHz. */
export function createFineMeter(rows: Growing) {
  const low = createBlockFilter(butterworth('low', 150, ANALYSIS_RATE));
  const high = createBlockFilter(butterworth('high', 5000, ANALYSIS_RATE));
  const perRow = ANALYSIS_RATE / FINE.rate;
  let lows = new Float64Array(0);
  let highs = new Float64Array(0);
  let previous = 0;
  let all = 0;
  let lowEnergy = 0;
  let highEnergy = 0;
  let count = 0;
  let edge = perRow;
  return (m: Float32Array): void => {
    const n = m.length;
    if (lows.length < n) {
      lows = new Float64Array(n);
      highs = new Float64Array(n);
    }
    low(m, lows, n);
    high(m, highs, n);
    for (let from = 0; from < n;) {
      const to = Math.min(n, from + Math.ceil(edge - count));
      let before = previous;
      let a = all;
      let l = lowEnergy;
      let h = highEnergy;
      for (let i = from; i < to; i++) {
        const d = m[i] - before;
        before = m[i];
        a += d * d;
        l += lows[i] * lows[i];
        h += highs[i] * highs[i];
      }
      previous = before;
      count += to - from;
      from = to;
      if (count >= edge) {
        const at = rows.next();
        rows.data[at] = a;
        rows.data[at + 1] = l;
        rows.data[at + 2] = h;
        all = lowEnergy = highEnergy = 0;
        edge += perRow;
      } else {
        all = a;
        lowEnergy = l;
        highEnergy = h;
      }
    }
  };
}
