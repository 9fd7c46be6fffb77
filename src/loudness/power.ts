import { settled } from '../signal/index.js';
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

/**
 * Starts the K-weighting of two channels that count alike. Each output of a recursive filter waits for the one before;
 * side by side, two channels wait together and cost little more than one.
 */
export function createWeightedPairEnergy(rate: Hertz): WeightedPairEnergy {
  const [shelf, high] = kWeighting(rate);
  const state = new Float64Array(8);
  return (left, right, from, to) => weightedPairEnergy(shelf, high, state, left, right, from, to);
}

function weightedPairEnergy(
  shelf: Section,
  high: Section,
  state: Float64Array,
  left: Float32Array,
  right: Float32Array,
  from: number,
  to: number,
): number {
  const [p0, p1, p2] = shelf.b;
  const [, q1, q2] = shelf.a;
  const [r0, r1, r2] = high.b;
  const [, s1, s2] = high.a;
  let [x1, x2, y1, y2, v1, v2, w1, w2] = state;
  let energy = 0;
  let other = 0;
  for (let i = from; i < to; i++) {
    const a = left[i];
    const x = a - a === 0 ? a : 0;
    const b = right[i];
    const v = b - b === 0 ? b : 0;
    const m = p0 * x + x1;
    const n = p0 * v + v1;
    x1 = p1 * x + x2 - q1 * m;
    v1 = p1 * v + v2 - q1 * n;
    x2 = p2 * x - q2 * m;
    v2 = p2 * v - q2 * n;
    const y = r0 * m + y1;
    const w = r0 * n + w1;
    y1 = r1 * m + y2 - s1 * y;
    w1 = r1 * n + w2 - s1 * w;
    y2 = r2 * m - s2 * y;
    w2 = r2 * n - s2 * w;
    energy += y * y;
    other += w * w;
  }
  state[0] = settled(x1);
  state[1] = settled(x2);
  state[2] = settled(y1);
  state[3] = settled(y2);
  state[4] = settled(v1);
  state[5] = settled(v2);
  state[6] = settled(w1);
  state[7] = settled(w2);
  return energy + other;
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
