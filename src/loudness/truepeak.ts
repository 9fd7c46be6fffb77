import type { Hertz } from '../units/index.js';

/** Taps on each side of the interpolated point; with a Kaiser window of β = 6 the response is flat to 0.2 dB up to 0.4 of the rate. */
const REACH = 8;
const KAISER_BETA = 6;

/**
 * Only where a sample is within this ratio (6 dB) of the highest peak so far can an interpolated value become the
 * next highest. Full-scale sines overshoot their samples by 3 dB at worst (a quarter of the rate at 45°).
 */
const WORTH_A_LOOK = 0.5;

/** Follows the highest absolute value of one channel between the samples too. */
export interface PeakFollower {
  push(samples: Float32Array): void;
  /** The highest absolute value, 1 is full scale. */
  finish(): number;
}

/**
 * True peak of one channel after ITU-R BS.1770-4, annex 2: the signal is interpolated to at least 192 kHz (4 times at
 * 48 kHz and below, twice at 96 kHz) and the highest absolute value taken. Interpolation happens only where it can
 * raise the result.
 */
export function createPeakFollower(rate: Hertz): PeakFollower {
  const factor = rate <= 64_000 ? 4 : rate <= 128_000 ? 2 : 1;
  const phases = interpolators(factor);
  const width = 2 * REACH;
  let buffer = new Float32Array(0);
  let tail = new Float32Array(width - 1);
  let peak = 0;

  function run(samples: Float32Array): void {
    const length = tail.length + samples.length;
    if (buffer.length < length) buffer = new Float32Array(length);
    buffer.set(tail);
    buffer.set(samples, tail.length);
    peak = highest(phases, buffer, length, peak);
    tail = buffer.slice(length - tail.length, length);
  }

  return {
    push: run,
    finish() {
      run(new Float32Array(width));
      return peak;
    },
  };
}

/** The highest absolute value of `x` between REACH − 1 and `length` − REACH, if above `peak`. Values that are no numbers are passed over. */
function highest(phases: readonly Float64Array[], x: Float32Array, length: number, peak: number): number {
  let here = Math.abs(x[REACH - 1]);
  let limit = peak * WORTH_A_LOOK;
  for (let n = REACH - 1; n + REACH < length; n++) {
    const next = Math.abs(x[n + 1]);
    if (here >= limit || next >= limit) {
      if (here > peak && here < Infinity) peak = here;
      // Between two samples of one sign that fall away outwards lies a crest; elsewhere the samples lead on to one.
      if (
        here >= Math.abs(x[n - 1]) &&
        next >= Math.abs(x[n + 2]) &&
        x[n] * x[n + 1] > 0 &&
        couldReach(x, n, here, next, peak)
      ) {
        for (const taps of phases) {
          const value = Math.abs(interpolate(taps, x, n));
          if (value > peak && value < Infinity) peak = value;
        }
      }
      limit = peak * WORTH_A_LOOK;
    }
    here = next;
  }
  return peak;
}

/**
 * By how much a crest may rise above the cubic through the four samples around it, or above the higher of the two beside
 * it: a sine at a quarter of the rate, met at 45°, rises by 1.13 above its cubic; more is left for what is higher still.
 */
const ABOVE_CUBIC = 1.3;

/** Whether a crest between x[n] and x[n + 1] could be higher than the highest so far, at a glance. */
function couldReach(x: Float32Array, n: number, here: number, next: number, peak: number): boolean {
  const middle = Math.abs(9 * (x[n] + x[n + 1]) - x[n - 1] - x[n + 2]) / 16;
  return Math.max(middle, here, next) * ABOVE_CUBIC > peak;
}

/** A value between x[n] and x[n + 1]; the taps run from n − REACH + 1 to n + REACH. */
function interpolate(taps: Float64Array, x: Float32Array, n: number): number {
  let y = 0;
  for (let k = 0, i = n - REACH + 1; k < taps.length; k++, i++) y += taps[k] * x[i];
  return y;
}

/** The filters for the points at 1/factor … (factor − 1)/factor between two samples; each passes a constant unchanged. */
function interpolators(factor: number): Float64Array[] {
  const phases: Float64Array[] = [];
  for (let p = 1; p < factor; p++) {
    const taps = new Float64Array(2 * REACH);
    let sum = 0;
    for (let k = 0; k < taps.length; k++) {
      const t = k - (REACH - 1) - p / factor;
      const sinc = Math.sin(Math.PI * t) / (Math.PI * t);
      taps[k] = sinc * besselI0(KAISER_BETA * Math.sqrt(1 - (t / REACH) ** 2));
      sum += taps[k];
    }
    phases.push(taps.map((v) => v / sum));
  }
  return phases;
}

/** Modified Bessel function of the first kind, order 0, by its power series. */
function besselI0(x: number): number {
  let term = 1;
  let sum = 1;
  for (let k = 1; term > 1e-12 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
