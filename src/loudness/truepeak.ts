import type { Kernels } from '../signal/index.js';
import type { Hertz } from '../units/index.js';

/** Taps on each side of the interpolated point; with a Kaiser window of β = 6 the response is flat to 0.2 dB up to 0.4 of the rate. */
const REACH = 8;
const KAISER_BETA = 6;

/**
 * Only where a sample is within this ratio (6 dB) of the highest peak so far can an interpolated value become the
 * next highest. Full-scale sines overshoot their samples by 3 dB at worst (a quarter of the rate at 45°).
 */
const WORTH_A_LOOK = 0.5;

/**
 * By how much a crest may rise above the cubic through the four samples around it, or above the higher of the two beside
 * it: a sine at a quarter of the rate, met at 45°, rises by 1.13 above its cubic; more is left for what is higher still.
 */
const ABOVE_CUBIC = 1.3;

/** Samples that are looked at in one go. */
const CHUNK = 16_384;

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
export function createPeakFollower(rate: Hertz, kernels: Kernels): PeakFollower {
  const factor = rate <= 64_000 ? 4 : rate <= 128_000 ? 2 : 1;
  const phases = interpolators(factor);
  const taps = kernels.doubles(phases.flatMap((phase) => [...phase]));
  const tail = 2 * REACH - 1;
  // A vector more than what is looked at: four samples are looked at together.
  const { at, view } = kernels.floats(tail + CHUNK + 4);
  const first = at + (REACH - 1) * Float32Array.BYTES_PER_ELEMENT;
  let peak = 0;

  function run(samples: Float32Array): void {
    for (let from = 0; from < samples.length; from += CHUNK) {
      const part = samples.subarray(from, from + CHUNK);
      view.set(part, tail);
      peak = kernels.loops.peak(first, part.length, taps.at, phases.length, REACH, WORTH_A_LOOK, ABOVE_CUBIC, peak);
      view.copyWithin(0, part.length, part.length + tail);
    }
  }

  return {
    push: run,
    finish() {
      run(new Float32Array(2 * REACH));
      return peak;
    },
  };
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
