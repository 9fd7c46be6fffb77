import type { Hertz } from '../units/index.js';
import { kaiserSinc } from './kaiser.js';

/** A resampler of one channel. */
export interface ChannelResampler {
  /** Takes the next input and gives the output that has become known. */
  push(input: Float32Array): Float32Array;
  /** Gives the rest, so that there are ceil(inputs · to / from) outputs in all. */
  finish(): Float32Array;
}

/** Everything above this share of the lower rate's half is the filter's transition band. */
export const PASS_BAND = 0.86;
/** Designed stop-band attenuation, dB; the measured one is a little lower. */
const ATTENUATION = 92;

/** Coefficients of every phase, row after row; made once for a pair of rates and shared by the channels. */
export interface PhaseTable {
  readonly up: number;
  readonly down: number;
  readonly taps: number;
  readonly rows: Float32Array;
}

/** Fractional delays of the pass-band filter for the conversion from one whole rate to another. */
export function phaseTable(from: Hertz, to: Hertz): PhaseTable {
  const common = gcd(from, to);
  const up = to / common;
  const down = from / common;
  const stop = 0.5 * Math.min(1, to / from);
  const filter = kaiserSinc(stop * PASS_BAND, stop, ATTENUATION);
  const taps = Math.ceil((2 * filter.reach) / 4) * 4;
  const lead = taps / 2 - 1;
  const rows = new Float32Array(up * taps);
  for (let phase = 0; phase < up; phase++) {
    const row = rows.subarray(phase * taps, (phase + 1) * taps);
    let sum = 0;
    for (let k = 0; k < taps; k++) sum += filter.at(k - lead - phase / up);
    for (let k = 0; k < taps; k++) row[k] = filter.at(k - lead - phase / up) / sum;
  }
  return { up, down, taps, rows };
}

/**
 * Converts one channel by a polyphase filter without delay: output n is the input's value at n · from / to.
 * Source: R. E. Crochiere, L. R. Rabiner, "Multirate Digital Signal Processing" (1983), chapter 4.
 */
export function createChannelResampler({ up, down, taps, rows }: PhaseTable): ChannelResampler {
  // input sample i of the whole signal stands at buffer[i - start]; before the signal there is silence
  const lead = taps / 2 - 1;
  let buffer = new Float32Array(lead);
  let start = -lead;
  let received = 0;
  let made = 0;

  function run(limit: number): Float32Array {
    const end = start + buffer.length;
    // output n needs inputs base - lead … base - lead + taps - 1, where base = floor(n · down / up)
    const lastBase = end - (taps - lead);
    const ready = lastBase < 0 ? 0 : Math.min(limit, Math.floor(((lastBase + 1) * up - 1) / down) + 1);
    const out = new Float32Array(Math.max(0, ready - made));
    let base = Math.floor((made * down) / up);
    let phase = made * down - base * up;
    const whole = Math.floor(down / up);
    const part = down - whole * up;
    for (let n = 0; n < out.length; n++) {
      out[n] = dot(buffer, base - lead - start, rows, phase * taps, taps);
      base += whole;
      phase += part;
      if (phase >= up) {
        phase -= up;
        base++;
      }
    }
    made += out.length;
    const keep = Math.max(0, Math.min(buffer.length, base - lead - start));
    buffer = buffer.subarray(keep);
    start += keep;
    return out;
  }

  function append(input: Float32Array): void {
    const next = new Float32Array(buffer.length + input.length);
    next.set(buffer);
    next.set(input, buffer.length);
    buffer = next;
  }

  return {
    push(input) {
      received += input.length;
      append(input);
      return run(Infinity);
    },
    finish() {
      append(new Float32Array(taps));
      return run(Math.ceil((received * up) / down));
    },
  };
}

/** Four sums side by side, so that one addition need not wait for the one before. */
function dot(a: Float32Array, i: number, b: Float32Array, j: number, count: number): number {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  for (const end = i + count; i < end; i += 4, j += 4) {
    s0 += a[i] * b[j];
    s1 += a[i + 1] * b[j + 1];
    s2 += a[i + 2] * b[j + 2];
    s3 += a[i + 3] * b[j + 3];
  }
  return s0 + s1 + (s2 + s3);
}

function gcd(a: number, b: number): number {
  while (b > 0) [a, b] = [b, a % b];
  return a;
}
