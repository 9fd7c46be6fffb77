import { createKernels, type Kernels } from '../signal/index.js';

/** Values that fit into the loops' memory at once: samples, and pairs of sums. */
const SAMPLES = 65_536;
const SUMS = 22_000;

/** The compiled loops with room for what they work on. Nothing is kept in them from one call to the next. */
function createRooms() {
  const kernels: Kernels = createKernels();
  const doubles = (length: number) => kernels.doubles(new Array<number>(length).fill(0));
  return {
    loops: kernels.loops,
    samples: kernels.floats(SAMPLES),
    first: doubles(SUMS),
    second: doubles(SUMS),
    few: doubles(64),
    state: doubles(8),
  };
}

let rooms: ReturnType<typeof createRooms> | null = null;

/** Made when the first track is counted. */
function room(): ReturnType<typeof createRooms> {
  return (rooms ??= createRooms());
}

/**
 * Σ x(i)·e^(j(α + iβ)) of a stretch of a curve for two angles and turns at once.
 * @param angles at the first value; `turns` from one value to the next (radians)
 * @param out real and imaginary sum of the first, then of the second
 */
export function turnedSums(
  curve: Float32Array,
  angles: readonly [number, number],
  turns: readonly [number, number],
  out: Float64Array,
): void {
  const { loops, samples, few, state } = room();
  few.view.set([Math.cos(turns[0]), Math.cos(turns[1]), Math.sin(turns[0]), Math.sin(turns[1])]);
  state.view.set([Math.cos(angles[0]), Math.cos(angles[1]), Math.sin(angles[0]), Math.sin(angles[1]), 0, 0, 0, 0]);
  for (let from = 0; from < curve.length; from += SAMPLES) {
    const part = curve.subarray(from, from + SAMPLES);
    samples.view.set(part);
    loops.turned(samples.at, part.length, few.at, state.at);
  }
  [out[0], out[1], out[2], out[3]] = [state.view[4], state.view[6], state.view[5], state.view[7]];
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
  const { loops, first, second, few, state } = room();
  const count = steps + 1;
  for (let i = 0; i < count; i += 2) {
    const sums = new Float64Array(8);
    for (let from = 0; from < re.length; from += SUMS) {
      if (i === 0 || re.length > SUMS) {
        first.view.set(re.subarray(from, from + SUMS));
        second.view.set(im.subarray(from, from + SUMS));
      }
      const at = [i, i + 1].map((k) => k * (angle + from * turn));
      const by = [i * turn, (i + 1) * turn];
      few.view.set([...at.map(Math.cos), ...at.map(Math.sin), ...by.map(Math.cos), ...by.map(Math.sin)]);
      loops.beside(first.at, second.at, Math.min(SUMS, re.length - from), few.at, state.at);
      for (let k = 0; k < 8; k++) sums[k] += state.view[k];
    }
    for (let lane = 0; lane < 2 && i + lane < count; lane++) {
      out[i + lane] = Math.hypot(sums[lane], sums[2 + lane]);
      out[count + i + lane] = Math.hypot(sums[4 + lane], sums[6 + lane]);
    }
  }
}

/**
 * Rises of log powers over `lag` rows, summed over a range of columns, the highest of three neighbours being what a rise is
 * held against. The first `lag` rows have none.
 */
export function risesOf(
  logs: Float32Array,
  columns: number,
  ranges: readonly { readonly first: number; readonly last: number }[],
  lag: number,
): Float32Array[] {
  const { loops, samples, first } = room();
  const rows = logs.length / columns;
  const atOnce = Math.min(Math.floor(SAMPLES / columns) - lag, SUMS);
  const out = ranges.map(() => new Float32Array(rows));
  const part = new Float32Array(first.view.buffer, first.at, SUMS);
  for (let from = 0; from + lag < rows; from += atOnce) {
    const count = Math.min(atOnce, rows - lag - from);
    samples.view.set(logs.subarray(from * columns, (from + count + lag) * columns));
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
