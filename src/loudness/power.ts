import { createKernels, pairs, settled } from '../signal/index.js';
import type { Hertz } from '../units/index.js';
import { kWeighting, type Section } from './kweighting.js';

/** Powers a second that the meter keeps: BS.1770-4's 400 ms blocks overlap by 75 %, so one block starts every 100 ms. */
export const STEPS_PER_SECOND = 10;

/** Filters a stretch of one channel and gives its sum of squares; remembers its state between calls. */
export type WeightedEnergy = (samples: Float32Array, from: number, to: number) => number;

/** The same for two channels at once: the sum of both. */
export type WeightedPairEnergy = (left: Float32Array, right: Float32Array, from: number, to: number) => number;

/** Starts the K-weighting of one channel; samples that are no numbers count as zero. */
export function createWeightedEnergy(rate: Hertz): WeightedEnergy {
  const [shelf, high] = kWeighting(rate);
  const state = new Float64Array(4);
  return (samples, from, to) => weightedEnergy(shelf, high, state, samples, from, to);
}

/** Frames that are weighted at a time. */
const CHUNK = 8192;

/**
 * Starts the K-weighting of two channels that count alike. Each output of a recursive filter waits for the one before;
 * side by side, two channels wait together and cost little more than one.
 */
export function createWeightedPairEnergy(rate: Hertz): WeightedPairEnergy {
  const kernels = createKernels();
  const [l, r] = [kernels.floats(CHUNK), kernels.floats(CHUNK)];
  const coefficients = kWeighting(rate).flatMap(({ b, a }) => [...b, a[1], a[2]]);
  const filters = kernels.doubles(pairs(coefficients, coefficients));
  const state = kernels.doubles([0, 0, 0, 0, 0, 0, 0, 0]);
  return (left, right, from, to) => {
    let energy = 0;
    for (let at = from; at < to; at += CHUNK) {
      const end = Math.min(to, at + CHUNK);
      l.view.set(left.subarray(at, end));
      r.view.set(right.subarray(at, end));
      energy += kernels.loops.weighted(l.at, r.at, end - at, filters.at, state.at);
    }
    for (let i = 0; i < state.view.length; i++) state.view[i] = settled(state.view[i]);
    return energy;
  };
}

/**
 * Everything the loop touches is a local variable (captured ones make it 2.5 times slower), and the sums are bracketed
 * so that as few operations as possible wait for the sample before.
 */
function weightedEnergy(
  shelf: Section,
  high: Section,
  state: Float64Array,
  samples: Float32Array,
  from: number,
  to: number,
): number {
  const [p0, p1, p2] = shelf.b;
  const [, q1, q2] = shelf.a;
  const [r0, r1, r2] = high.b;
  const [, s1, s2] = high.a;
  let [x1, x2, y1, y2] = state;
  let energy = 0;
  for (let i = from; i < to; i++) {
    const sample = samples[i];
    const x = sample - sample === 0 ? sample : 0;
    const m = p0 * x + x1;
    x1 = p1 * x + x2 - q1 * m;
    x2 = p2 * x - q2 * m;
    const y = r0 * m + y1;
    y1 = r1 * m + y2 - s1 * y;
    y2 = r2 * m - s2 * y;
    energy += y * y;
  }
  state[0] = settled(x1);
  state[1] = settled(x2);
  state[2] = settled(y1);
  state[3] = settled(y2);
  return energy;
}
