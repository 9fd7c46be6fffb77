import type { Seconds } from '../../units/index.js';
import { RATE, silence, type Stereo } from './stereo.js';
import { inTime, type TimeMap } from './time-map.js';

/** Half the length of the filter, in samples, and its steps between two samples. */
const HALF = 16;
const STEPS = 512;
/** Kaiser window: 80 dB down beside the passband (Oppenheim & Schafer, Discrete-Time Signal Processing, 7.6). */
const BETA = 7.86;
/** Passband as a share of half the rate; leaves room for records played faster. */
const PASS = 0.9;

let table: Float32Array | null = null;

/**
 * Plays a record through a time map as a turntable does: pitch goes with the speed. A windowed sinc between the samples.
 * @param record its samples from `recordStart` seconds on
 * @param frames of the result, from time 0 on
 */
export function varispeed(record: Stereo, recordStart: Seconds, map: TimeMap, frames: number): Stereo {
  const sinc = (table ??= sincTable());
  const out = silence(frames);
  const input = { left: padded(record.left), right: padded(record.right) };
  const BLOCK = 1024;
  for (let from = 0; from < frames; from += BLOCK) {
    const to = Math.min(frames, from + BLOCK);
    const start = (inTime(map, from / RATE) - recordStart) * RATE;
    const step = ((inTime(map, to / RATE) - recordStart) * RATE - start) / (to - from);
    interpolate(input, out, from, to, start, step, sinc);
  }
  return out;
}

/** Silence on both sides, so that the filter never looks outside. */
function padded(samples: Float32Array): Float32Array {
  const room = new Float32Array(samples.length + 4 * HALF);
  room.set(samples, 2 * HALF);
  return room;
}

function interpolate(
  { left, right }: Stereo,
  out: Stereo,
  from: number,
  to: number,
  start: number,
  step: number,
  sinc: Float32Array,
): void {
  const width = 2 * HALF;
  const last = left.length - width;
  for (let i = from; i < to; i++) {
    const position = start + (i - from) * step;
    const whole = Math.floor(position);
    const first = whole + HALF + 1; // in the padded samples
    if (first < 0 || first > last) continue;
    const fine = (position - whole) * STEPS;
    const row = Math.floor(fine);
    const share = fine - row;
    const [a, b] = [row * width, (row + 1) * width];
    let [sumLeft, sumRight] = [0, 0];
    for (let k = 0; k < width; k++) {
      const weight = sinc[a + k] + share * (sinc[b + k] - sinc[a + k]);
      sumLeft += left[first + k] * weight;
      sumRight += right[first + k] * weight;
    }
    out.left[i] = sumLeft;
    out.right[i] = sumRight;
  }
}

/** Row r: the weights of the neighbours for a place r / STEPS behind a sample. */
function sincTable(): Float32Array {
  const rows = new Float32Array((STEPS + 1) * 2 * HALF);
  for (let r = 0; r <= STEPS; r++) {
    let sum = 0;
    for (let k = 0; k < 2 * HALF; k++) {
      const x = k - HALF + 1 - r / STEPS;
      const window = Math.abs(x) >= HALF ? 0 : bessel(BETA * Math.sqrt(1 - (x / HALF) ** 2)) / bessel(BETA);
      const value = (x === 0 ? PASS : Math.sin(Math.PI * PASS * x) / (Math.PI * x)) * window;
      rows[r * 2 * HALF + k] = value;
      sum += value;
    }
    for (let k = 0; k < 2 * HALF; k++) rows[r * 2 * HALF + k] /= sum;
  }
  return rows;
}

/** Modified Bessel function of the first kind, order 0, by its power series. */
function bessel(x: number): number {
  let [sum, term] = [1, 1];
  for (let k = 1; k < 40; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
