import { createLoudnessMeter } from '../../../src/loudness/index.js';
import type { Dice } from '../dice.js';
import { RATE, tone } from '../voices/shapes.js';

/** Highest true peak of a finished track. */
export const CEILING = -1;

const BLOCK = 64;

/** Gains that keep the peaks of both channels under `ceiling`, looked up ahead and smoothed over 11 blocks. */
function limit(left: Float32Array, right: Float32Array, ceiling: number): void {
  const blocks = Math.ceil(left.length / BLOCK);
  const need = new Float32Array(blocks + 1).fill(1);
  for (let b = 0; b < blocks; b++) {
    let peak = 0;
    for (let i = b * BLOCK; i < Math.min(left.length, (b + 1) * BLOCK); i++)
      peak = Math.max(peak, Math.abs(left[i]), Math.abs(right[i]));
    need[b] = Math.min(1, ceiling / Math.max(peak, 1e-9));
  }
  const at = (list: Float32Array, b: number) => list[Math.min(blocks, Math.max(0, b))];
  const least = need.map((_, b) => Math.min(...Array.from({ length: 13 }, (_, k) => at(need, b + k - 6))));
  const smooth = least.map((_, b) => Array.from({ length: 11 }, (_, k) => at(least, b + k - 5)).reduce((s, v) => s + v) / 11); // prettier-ignore
  for (let i = 0; i < left.length; i++) {
    const b = Math.floor(i / BLOCK);
    const share = (i % BLOCK) / BLOCK;
    const gain = smooth[b] * (1 - share) + at(smooth, b + 1) * share;
    left[i] *= gain;
    right[i] *= gain;
  }
}

function measured(left: Float32Array, right: Float32Array): { loudness: number; peak: number } {
  const meter = createLoudnessMeter(RATE, 2);
  for (let i = 0; i < left.length; i += 65_536)
    meter.push([left.subarray(i, i + 65_536), right.subarray(i, i + 65_536)]);
  const { integratedLufs, truePeakDbtp } = meter.finish();
  return { loudness: integratedLufs ?? -70, peak: truePeakDbtp ?? -70 };
}

/** Masters in place: a top that is more or less open, warmth, a loudness from quiet to loud, a limiter, a true peak of −1. */
export function master(left: Float32Array, right: Float32Array, d: Dice): void {
  const warmth = d.happens(0.5) ? d.between(0.3, 1.2) : 0;
  const dull = d.happens(0.15) ? d.between(4500, 6800) : 0;
  const target = d.between(-18, -8);
  for (const x of [left, right]) {
    if (dull > 0) tone(x, 'low', dull, 0.75);
    if (warmth > 0) for (let i = 0; i < x.length; i++) x[i] = Math.tanh(warmth * x[i]) / warmth;
  }
  const [from, to] = [0.3, 0.8].map((share) => Math.round(share * left.length));
  const before = measured(left.subarray(from, to), right.subarray(from, to));
  const gain = 10 ** ((target - before.loudness) / 20);
  for (const x of [left, right]) for (let i = 0; i < x.length; i++) x[i] *= gain;
  limit(left, right, 10 ** ((CEILING - 0.6) / 20));
  const { peak } = measured(left, right);
  const back = peak > CEILING - 0.05 ? 10 ** ((CEILING - 0.05 - peak) / 20) : 1;
  for (const x of [left, right]) for (let i = 0; i < x.length; i++) x[i] *= back;
}
