import { readFileSync } from 'node:fs';

/** The functions of loops.as; pointers are byte offsets into the memory of the instance. */
interface Loops {
  readonly memory: WebAssembly.Memory;
  split(left: number, right: number, mid: number, side: number, n: number): number;
  energy(samples: number, n: number): number;
  fineRows(samples: number, n: number, perRow: number, filters: number, state: number, clock: number, out: number): number; // prettier-ignore
  quarter(samples: number, n: number, skip: number, gain: number, one: number, four: number, state: number, kept: number): number; // prettier-ignore
  weighted(left: number, right: number, n: number, filters: number, state: number): number;
  peak(samples: number, n: number, taps: number, phases: number, reach: number, worth: number, above: number, highest: number): number; // prettier-ignore
  windowed(frame: number, window: number, out: number, n: number): void;
  bands(spectrum: number, edges: number, count: number, out: number): void;
  classes(spectrum: number, count: number, bins: number, places: number, weights: number, out: number): void;
  turned(samples: number, n: number, rows: number, turns: number, states: number): void;
  beside(re: number, im: number, n: number, turns: number, sums: number): void;
  rises(logs: number, columns: number, rows: number, lag: number, first: number, last: number, out: number): void;
  phrasesFrom(b: number, bars: number, width: number, reach: number, phrases: number, stay: number, close: number, advance: number, section: number, edge: number, best: number, back: number): number; // prettier-ignore
  forwardFrom(b: number, bars: number, width: number, reach: number, stay: number, close: number, advance: number, section: number, edge: number, sums: number): void; // prettier-ignore
  backwardFrom(b: number, bars: number, width: number, reach: number, stay: number, close: number, advance: number, section: number, edge: number, ways: number, sums: number): void; // prettier-ignore
  likeness(values: number, n: number, steps: number, template: number, weight: number, out: number): void;
}

/** An array in the memory of the loops. */
export interface Room<T> {
  /** Its place in bytes. */
  readonly at: number;
  readonly view: T;
}

/** Loops compiled to WebAssembly with SIMD, with memory of their own for arrays and filter states. */
export interface Kernels {
  readonly loops: Loops;
  floats(length: number): Room<Float32Array>;
  /** @param values to begin with, or how many zeros */
  doubles(values: ArrayLike<number> | number): Room<Float64Array>;
  integers(values: ArrayLike<number> | number): Room<Int32Array>;
}

/** The compiled module, read and compiled when the first track is heard. */
let compiled: WebAssembly.Module | null = null;

/** What an instance begins with, and the smallest step by which it can have more. */
const USUAL_BYTES = 1 << 20;
const PAGE = 1 << 16;
/** Bytes at the beginning that hold nothing. */
const FIRST = 1024;

/**
 * A fresh set of loops: what it remembers belongs to one track.
 * @param bytes that its arrays will need, with up to 16 more for each; 1 MB less 1 kB is always there, 128 MB is the most
 * @throws RangeError when its memory is full
 */
export function createKernels(bytes = 0): Kernels {
  compiled ??= new WebAssembly.Module(readFileSync(new URL('./loops.wasm', import.meta.url)));
  const loops = new WebAssembly.Instance(compiled).exports as unknown as Loops;
  // It grows now or never: views of the memory would be empty afterwards.
  const missing = Math.ceil((FIRST + bytes - USUAL_BYTES) / PAGE);
  if (missing > 0) loops.memory.grow(missing);
  const { buffer } = loops.memory;
  let free = FIRST;
  const take = (bytes: number) => {
    const at = free;
    free = Math.ceil((at + bytes) / 16) * 16;
    if (free > buffer.byteLength) throw new RangeError('The sample loops have no room left.');
    return at;
  };
  return {
    loops,
    floats(length) {
      const at = take(length * 4);
      return { at, view: new Float32Array(buffer, at, length) };
    },
    doubles(values) {
      const length = lengthOf(values);
      const at = take(length * 8);
      const view = new Float64Array(buffer, at, length);
      if (typeof values !== 'number') view.set(values);
      return { at, view };
    },
    integers(values) {
      const length = lengthOf(values);
      const at = take(length * 4);
      const view = new Int32Array(buffer, at, length);
      if (typeof values !== 'number') view.set(values);
      return { at, view };
    },
  };
}

function lengthOf(values: ArrayLike<number> | number): number {
  return typeof values === 'number' ? values : values.length;
}

/** Coefficients for two lanes: those of the first section and of the second, side by side. */
export function pairs(first: readonly number[], second: readonly number[]): number[] {
  return first.flatMap((value, i) => [value, second[i]]);
}
