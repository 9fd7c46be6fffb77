import { butterworth, settled } from './biquad.js';
import { ANALYSIS_RATE } from './frontend.js';
import { pairs, type Kernels, type Room } from './kernels/kernels.js';

/** 4 poles at 3.5 kHz: more than 24 dB down at the image of the highest pitch used (1.76 kHz) after decimation by 4. */
const LOW = butterworth('low', 3500, ANALYSIS_RATE);

/** Keeps some of the samples it is given. */
export interface Decimator {
  /** @returns how many samples `kept` begins with */
  (samples: Room<Float32Array>, length: number): number;
  /** Used again by every call. */
  readonly kept: Room<Float32Array>;
}

/**
 * Keeps every `factor`-th sample of a signal at the analysis rate, after a low-pass.
 * @param most samples that come at a time
 */
export function createDecimator(kernels: Kernels, factor: number, most: number): Decimator {
  const kept = kernels.floats(Math.ceil(most / factor) + 1);
  const section = [LOW.b0, LOW.b1, LOW.b2, LOW.a1, LOW.a2];
  const filter = kernels.doubles(pairs(section, section));
  const state = kernels.doubles([0, 0, 0, 0]);
  let skip = 0;
  const decimate = (samples: Room<Float32Array>, length: number): number => {
    const count = kernels.loops.decimate(samples.at, length, skip, factor, filter.at, state.at, kept.at);
    for (let i = 0; i < state.view.length; i++) state.view[i] = settled(state.view[i]);
    skip += count * factor - length;
    return count;
  };
  return Object.assign(decimate, { kept });
}
