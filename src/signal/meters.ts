import { butterworth, settled, type BiquadCoefficients } from './biquad.js';
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

const LOW = butterworth('low', 150, ANALYSIS_RATE);
const HIGH = butterworth('high', 5000, ANALYSIS_RATE);

/** Where the state of the fine meter stands in its array: the sample before, two filters, three sums. */
const STATE = { before: 0, low: 1, high: 3, difference: 5, lows: 6, highs: 7, length: 8 } as const;

/** Energies of whole milliseconds: first difference, below 150 Hz, above 5 kHz. */
export function createFineMeter(rows: Growing) {
  const perRow = ANALYSIS_RATE / FINE.rate;
  const state = new Float64Array(STATE.length);
  let count = 0;
  let edge = perRow;
  return (m: Float32Array): void => {
    for (let from = 0; from < m.length;) {
      const to = Math.min(m.length, from + Math.ceil(edge - count));
      addFineEnergies(m, from, to, state, LOW, HIGH);
      count += to - from;
      from = to;
      if (count < edge) continue;
      const at = rows.next();
      for (let c = 0; c < 3; c++) {
        rows.data[at + c] = state[STATE.difference + c];
        state[STATE.difference + c] = 0;
      }
      edge += perRow;
    }
  };
}

/** One pass for all three: everything the loop touches is a local variable, and the two filters run side by side. */
function addFineEnergies(
  samples: Float32Array,
  from: number,
  to: number,
  state: Float64Array,
  low: BiquadCoefficients,
  high: BiquadCoefficients,
): void {
  const { b0: p0, b1: p1, b2: p2, a1: q1, a2: q2 } = low;
  const { b0: r0, b1: r1, b2: r2, a1: s1, a2: s2 } = high;
  let before = state[STATE.before];
  let l1 = state[STATE.low];
  let l2 = state[STATE.low + 1];
  let h1 = state[STATE.high];
  let h2 = state[STATE.high + 1];
  let difference = state[STATE.difference];
  let lows = state[STATE.lows];
  let highs = state[STATE.highs];
  for (let i = from; i < to; i++) {
    const x = samples[i];
    const d = x - before;
    before = x;
    const l = p0 * x + l1;
    l1 = p1 * x - q1 * l + l2;
    l2 = p2 * x - q2 * l;
    const h = r0 * x + h1;
    h1 = r1 * x - s1 * h + h2;
    h2 = r2 * x - s2 * h;
    difference += d * d;
    lows += l * l;
    highs += h * h;
  }
  state[STATE.before] = before;
  state[STATE.low] = settled(l1);
  state[STATE.low + 1] = settled(l2);
  state[STATE.high] = settled(h1);
  state[STATE.high + 1] = settled(h2);
  state[STATE.difference] = difference;
  state[STATE.lows] = lows;
  state[STATE.highs] = highs;
}
