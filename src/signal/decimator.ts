import { butterworth, settled } from './biquad.js';
import { ANALYSIS_RATE } from './frontend.js';
import type { Kernels, Room } from './kernels/kernels.js';

/** 4 poles at 3.5 kHz: more than 24 dB down at the image of the highest pitch used (1.76 kHz) after decimation by 4. */
const LOW = butterworth('low', 3500, ANALYSIS_RATE);

/** Of so many samples one is kept. */
const FACTOR = 4;

/** Keeps some of the samples it is given. */
export interface Decimator {
  /** @returns how many samples `kept` begins with */
  (samples: Room<Float32Array>, length: number): number;
  /** Used again by every call. */
  readonly kept: Room<Float32Array>;
}

/**
 * Keeps every fourth sample of a signal at the analysis rate, after a low-pass.
 * @param most samples that come at a time
 */
export function createDecimator(kernels: Kernels, most: number): Decimator {
  const kept = kernels.floats(Math.ceil(most / FACTOR) + 1);
  const one = kernels.doubles(transition(1));
  const four = kernels.doubles(transition(FACTOR));
  const state = kernels.doubles([0, 0, 0, 0]);
  let skip = 0;
  const decimate = (samples: Room<Float32Array>, length: number): number => {
    const count = kernels.loops.quarter(samples.at, length, skip, LOW.b0, one.at, four.at, state.at, kept.at);
    for (let i = 0; i < state.view.length; i++) state.view[i] = settled(state.view[i]);
    skip += count * FACTOR - length;
    return count;
  };
  return Object.assign(decimate, { kept });
}

/**
 * Where the state of the low-pass, twice, goes in some samples: what each of its four numbers makes of it, then each of the
 * samples. Only every fourth output is wanted, and the state can go from one to the next at once.
 */
function transition(samples: number): number[] {
  const silence = new Array<number>(samples).fill(0);
  const rest = [0, 0, 0, 0];
  const after = (state: readonly number[], input: readonly number[]) => input.reduce<readonly number[]>(next, state);
  const ofState = rest.flatMap((_, i) => after(rest.with(i, 1), silence));
  return [...ofState, ...silence.flatMap((_, i) => after(rest, silence.with(i, 1)))];
}

/** State of two sections one after the other (transposed direct form II) after one more sample. */
function next([p1, p2, q1, q2]: readonly number[], x: number): number[] {
  const { b0, b1, b2, a1, a2 } = LOW;
  const y = b0 * x + p1;
  const z = b0 * y + q1;
  return [b1 * x - a1 * y + p2, b2 * x - a2 * y, b1 * y - a1 * z + q2, b2 * y - a2 * z];
}
