import { readFileSync } from 'node:fs';
import type { Loops } from './loops.js';

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
  bytes(length: number): Room<Uint8Array>;
  /** Takes all rooms back; the next ones are zeros again. */
  clear(): void;
}

/** The compiled module, read and compiled when the first track is heard. */
let compiled: WebAssembly.Module | null = null;

/** Logarithms, powers and angles are the engine's own in compiled loops too, so that the same numbers come out. */
const MATH = { Math } as unknown as WebAssembly.Imports;

/** What an instance begins with, and the smallest step by which it can have more. */
const USUAL_BYTES = 1 << 20;
const PAGE = 1 << 16;
/** Bytes at the beginning that hold nothing. */
const FIRST = 1024;

/**
 * A fresh set of loops: what it remembers belongs to one track.
 * @param bytes that its arrays will need, with up to 16 more for each; 1 MB less 1 kB is always there, 1 GB is the most
 * @throws RangeError when its memory is full
 */
export function createKernels(bytes = 0): Kernels {
  compiled ??= new WebAssembly.Module(readFileSync(new URL('./loops.wasm', import.meta.url)));
  const loops = new WebAssembly.Instance(compiled, MATH).exports as unknown as Loops;
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
    clear() {
      new Uint8Array(buffer, FIRST, free - FIRST).fill(0);
      free = FIRST;
    },
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
    bytes(length) {
      const at = take(length);
      return { at, view: new Uint8Array(buffer, at, length) };
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

/** The set that is lent, and for how many bytes it was made. */
let lent: { readonly kernels: Kernels; readonly bytes: number } | null = null;

/**
 * One set of loops for work that is done before anybody borrows it again; what stands in it is lost then. Making a set for each
 * small piece of work would cost more than the work.
 * @param bytes that its arrays will need, with up to 16 more for each
 */
export function borrowKernels(bytes: number): Kernels {
  // One that was made for a very long track is not kept for short ones.
  if (lent === null || lent.bytes < bytes || lent.bytes > Math.max(8 * bytes, MOST_KEPT)) {
    const room = Math.max(bytes, LEAST_LENT);
    lent = { kernels: createKernels(room), bytes: room };
  } else lent.kernels.clear();
  return lent.kernels;
}

/** Bytes of a set that is kept whatever is asked for, and that one is made for at least: enough for all that ten minutes ask. */
const MOST_KEPT = 1 << 24;
const LEAST_LENT = 1 << 22;

function lengthOf(values: ArrayLike<number> | number): number {
  return typeof values === 'number' ? values : values.length;
}

/** Coefficients for two lanes: those of the first section and of the second, side by side. */
export function pairs(first: readonly number[], second: readonly number[]): number[] {
  return first.flatMap((value, i) => [value, second[i]]);
}
