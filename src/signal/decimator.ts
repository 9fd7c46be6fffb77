import { butterworth, settled, type BiquadCoefficients } from './biquad.js';
import { ANALYSIS_RATE } from './frontend.js';

/** 4 poles at 3.5 kHz: more than 24 dB down at the image of the highest pitch used (1.76 kHz) after decimation by 4. */
const LOW = butterworth('low', 3500, ANALYSIS_RATE);

/** Keeps every `factor`-th sample of a signal at the analysis rate, after a low-pass; the array is used again. */
export function createDecimator(factor: number): (samples: Float32Array) => Float32Array {
  const state = new Float64Array(4);
  let kept = new Float32Array(0);
  let skip = 0;
  return (samples) => {
    const most = Math.ceil(samples.length / factor) + 1;
    if (kept.length < most) kept = new Float32Array(most);
    const count = decimate(samples, skip, factor, LOW, state, kept);
    skip += count * factor - samples.length;
    return kept.subarray(0, count);
  };
}

/** Both sections in one pass; gives how many samples were kept. @param skip samples before the first that is kept */
function decimate(
  samples: Float32Array,
  skip: number,
  factor: number,
  { b0, b1, b2, a1, a2 }: BiquadCoefficients,
  state: Float64Array,
  kept: Float32Array,
): number {
  let [s1, s2, t1, t2] = state;
  let next = skip;
  let count = 0;
  for (let i = 0; i < samples.length; i++) {
    const x = samples[i];
    const y = b0 * x + s1;
    s1 = b1 * x - a1 * y + s2;
    s2 = b2 * x - a2 * y;
    const z = b0 * y + t1;
    t1 = b1 * y - a1 * z + t2;
    t2 = b2 * y - a2 * z;
    if (i === next) {
      kept[count++] = z;
      next += factor;
    }
  }
  state[0] = settled(s1);
  state[1] = settled(s2);
  state[2] = settled(t1);
  state[3] = settled(t2);
  return count;
}
