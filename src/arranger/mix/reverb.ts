import type { Seconds } from '../../units/index.js';
import { RATE } from '../sound/shot.js';
import type { Stereo } from './bus.js';

/** Lengths of the eight delay lines in frames at half the rate: primes, so that their echoes don't fall together. */
const LENGTHS = [601, 691, 773, 839, 953, 1039, 1151, 1259] as const;
const LINES = LENGTHS.length;
const HALF_RATE = RATE / 2;
const PREDELAY = 260;

/**
 * Reverberation by a feedback delay network (Jot & Chaigne 1991) with a Householder mixing matrix, run at half the rate:
 * takes the mono send and adds the stereo result to the master.
 */
export function reverberate(send: Float32Array, master: Stereo, time: Seconds): void {
  const lines = LENGTHS.map((length) => new Float32Array(length));
  const places = new Int32Array(LINES);
  const gains = Float64Array.from(LENGTHS, (length) => 10 ** ((-3 * length) / (HALF_RATE * time)));
  const dull = new Float64Array(LINES);
  const out = new Float64Array(LINES);
  let low = 0;
  let lastLeft = 0;
  let lastRight = 0;
  const { left, right } = master;
  for (let k = 0; 2 * k + 1 < left.length; k++) {
    const raw = k >= PREDELAY ? send[k - PREDELAY] : 0;
    low += 0.035 * (raw - low);
    const input = raw - low;
    let sum = 0;
    for (let n = 0; n < LINES; n++) {
      const value = lines[n][places[n]];
      dull[n] += 0.62 * (value - dull[n]);
      out[n] = dull[n] * gains[n];
      sum += out[n];
    }
    const shared = (2 / LINES) * sum;
    for (let n = 0; n < LINES; n++) {
      lines[n][places[n]] = input + out[n] - shared;
      if (++places[n] === LENGTHS[n]) places[n] = 0;
    }
    const wetLeft = out[0] - out[2] + out[4] - out[6];
    const wetRight = out[1] - out[3] + out[5] - out[7];
    left[2 * k] += 0.5 * (lastLeft + wetLeft);
    right[2 * k] += 0.5 * (lastRight + wetRight);
    left[2 * k + 1] += wetLeft;
    right[2 * k + 1] += wetRight;
    lastLeft = wetLeft;
    lastRight = wetRight;
  }
}
