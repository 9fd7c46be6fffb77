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
  likeness(values: number, n: number, steps: number, template: number, weight: number, out: number): void;
}

/** An array in the memory of the loops. */
export interface Room<T> {
  /** Its place in bytes. */
  readonly at: number;
  readonly view: T;
}

/** Sample loops compiled to WebAssembly with SIMD, with 1 MB of memory of their own for arrays and filter states. */
export interface Kernels {
  readonly loops: Loops;
  floats(length: number): Room<Float32Array>;
  /** @param values to begin with */
  doubles(values: readonly number[]): Room<Float64Array>;
  integers(values: readonly number[]): Room<Int32Array>;
}

/** The compiled module, read and compiled when the first track is heard. */
let compiled: WebAssembly.Module | null = null;

/** A fresh set of loops: what it remembers belongs to one track. @throws RangeError when its memory is full */
export function createKernels(): Kernels {
  compiled ??= new WebAssembly.Module(readFileSync(new URL('./loops.wasm', import.meta.url)));
  const loops = new WebAssembly.Instance(compiled).exports as unknown as Loops;
  const { buffer } = loops.memory;
  let free = 1024;
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
      const at = take(values.length * 8);
      const view = new Float64Array(buffer, at, values.length);
      view.set(values);
      return { at, view };
    },
    integers(values) {
      const at = take(values.length * 4);
      const view = new Int32Array(buffer, at, values.length);
      view.set(values);
      return { at, view };
    },
  };
}

/** Coefficients for two lanes: those of the first section and of the second, side by side. */
export function pairs(first: readonly number[], second: readonly number[]): number[] {
  return first.flatMap((value, i) => [value, second[i]]);
}
