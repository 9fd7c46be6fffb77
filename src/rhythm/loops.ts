import { createKernels, type Kernels, type Room } from '../signal/index.js';
import type { LogPowers } from './log-powers.js';

/** Values that fit into the loops' memory at once: samples, and pairs of sums. */
const SAMPLES = 65_536;
const SUMS = 22_000;
/** Pairs of turns at once. */
const PAIRS = 512;

/** The compiled loops with room for what they work on. Nothing is kept in them from one call to the next. */
function createRooms() {
  const kernels: Kernels = createKernels(4 * SAMPLES + 16 * (SUMS + 10 * PAIRS) + 8 * 64);
  const doubles = (length: number) => kernels.doubles(length);
  return {
    loops: kernels.loops,
    samples: kernels.floats(SAMPLES),
    first: doubles(SUMS),
    second: doubles(SUMS),
    few: doubles(64),
    turns: doubles(8 * PAIRS),
    sums: doubles(8 * PAIRS),
    lengths: doubles(4 * PAIRS),
  };
}

let rooms: ReturnType<typeof createRooms> | null = null;

/** Made when the first track is counted. */
function room(): ReturnType<typeof createRooms> {
  return (rooms ??= createRooms());
}

/** Values of a block's state in `turnedSums`: cosines, sines, real sums and imaginary sums, each of both turns. */
export const STATE = { cos: 0, sin: 2, re: 4, im: 6, length: 8 } as const;

/**
 * Σ x(i)·e^(j(α + iβ)) of each block of a curve for two angles and turns at once.
 * @param blockRows values of a block; the last may have fewer
 * @param turns β from one value to the next (radians)
 * @param states laid out as `STATE` for each block: cosines and sines of its two α go in, sums of 0 are added to
 */
export function turnedSums(
  curve: Float32Array,
  blockRows: number,
  turns: readonly [number, number],
  states: Float64Array,
): void {
  const { loops, samples, first, few } = room();
  for (let lane = 0; lane < 2; lane++) {
    few.view[lane] = Math.cos(turns[lane]);
    few.view[2 + lane] = Math.sin(turns[lane]);
  }
  const blocks = states.length / STATE.length;
  const atOnce = Math.max(1, Math.min(Math.floor(SAMPLES / blockRows), Math.floor(SUMS / STATE.length)));
  for (let b = 0; b < blocks; b += atOnce) {
    const part = states.subarray(b * STATE.length, (b + atOnce) * STATE.length);
    first.view.set(part);
    const end = Math.min(curve.length, (b + atOnce) * blockRows);
    for (let from = b * blockRows; from < end; from += SAMPLES) {
      const values = curve.subarray(from, Math.min(end, from + SAMPLES));
      samples.view.set(values);
      loops.turned(samples.at, values.length, blockRows, few.at, first.at);
    }
    part.set(first.view.subarray(0, part.length));
  }
}

/** Complex numbers by their parts. */
export interface ComplexRow {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/**
 * |Σ z(b)·e^(±j(α + bβ))| for angles and turns that grow in even steps from 0: α = i·angle, β = i·turn, i = 0 … steps.
 * @param out for each i the magnitude forwards, and at i + steps + 1 backwards
 */
export function magnitudesBeside(
  { re, im }: ComplexRow,
  angle: number,
  turn: number,
  steps: number,
  out: Float64Array,
): void {
  for (let i = 0; i <= steps; i += 2 * PAIRS) {
    // Two of them side by side.
    const count = Math.min(2 * PAIRS, steps + 1 - i);
    const { view } = lengthsOf(re, im, i, count, angle, turn);
    out.set(view.subarray(0, count), i);
    out.set(view.subarray(count, 2 * count), steps + 1 + i);
  }
}

/** |Σ z(b)·e^(j(α + bβ))| for one angle and turn. */
export function magnitudeAt({ re, im }: ComplexRow, angle: number, turn: number): number {
  return lengthsOf(re, im, 1, 1, angle, turn).view[0];
}

/** |Σ z(b)·e^(±j(iα + ibβ))| for `count` i from one on, forwards and then backwards; good until the next are asked for. */
function lengthsOf(
  re: Float64Array,
  im: Float64Array,
  i: number,
  count: number,
  angle: number,
  turn: number,
): Room<Float64Array> {
  const { loops, first, second, turns, sums, lengths } = room();
  const pairs = Math.ceil(count / 2);
  let totals: Float64Array | null = null;
  for (let from = 0; from < re.length; from += SUMS) {
    const many = Math.min(SUMS, re.length - from);
    first.view.set(re.subarray(from, from + many));
    second.view.set(im.subarray(from, from + many));
    loops.evenTurns(turns.at, pairs, i, angle + from * turn, turn);
    loops.besides(first.at, second.at, many, turns.at, pairs, sums.at);
    if (re.length > SUMS) totals = addTo(totals, sums.view.subarray(0, 8 * pairs));
  }
  if (totals) sums.view.set(totals);
  loops.lengths(sums.at, count, count, lengths.at);
  return lengths;
}

function addTo(totals: Float64Array | null, sums: Float64Array): Float64Array {
  if (!totals) return sums.slice();
  for (let i = 0; i < totals.length; i++) totals[i] += sums[i];
  return totals;
}

/**
 * Rises of log powers over `lag` rows, summed over a range of columns, the highest of three neighbours being what a rise is
 * held against. The first `lag` rows have none.
 */
export function risesOf(
  logs: LogPowers,
  ranges: readonly { readonly first: number; readonly last: number }[],
  lag: number,
): Float32Array[] {
  const { loops, samples, first } = room();
  const { rows, columns } = logs;
  const atOnce = Math.min(Math.floor(SAMPLES / columns) - lag, SUMS);
  const out = ranges.map(() => new Float32Array(rows));
  const part = new Float32Array(first.view.buffer, first.at, SUMS);
  for (let from = 0; from + lag < rows; from += atOnce) {
    const count = Math.min(atOnce, rows - lag - from);
    samples.view.set(logs.read(from, from + count + lag));
    ranges.forEach((range, k) => {
      loops.rises(samples.at, columns, count, lag, range.first, range.last, first.at);
      out[k].set(part.subarray(0, count), from + lag);
    });
  }
  return out;
}

/**
 * Adds to `out[b · steps + p]` how well beat b, read from its step p on, agrees with a template: `weight` · Σ of products.
 * @param values `steps` values a beat, and one beat more than `out` has
 * @param steps an even number
 */
export function addLikeness(
  values: Float32Array,
  template: Float64Array,
  steps: number,
  weight: number,
  out: Float64Array,
): void {
  const { loops, samples, first, few } = room();
  const beats = out.length / steps;
  const atOnce = Math.floor(SUMS / steps);
  few.view.set(template);
  for (let from = 0; from < beats; from += atOnce) {
    const count = Math.min(atOnce, beats - from);
    const part = out.subarray(from * steps, (from + count) * steps);
    samples.view.set(values.subarray(from * steps, (from + count + 1) * steps));
    first.view.set(part);
    loops.likeness(samples.at, count, steps, few.at, weight, first.at);
    part.set(first.view.subarray(0, part.length));
  }
}
