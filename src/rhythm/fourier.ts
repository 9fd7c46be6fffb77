import { createKernels } from '../signal/index.js';

/** A Fourier transform of complex numbers in double precision, of one size. Real and imaginary parts lie in turn. */
export interface Fourier {
  readonly size: number;
  /** Where the numbers go; a transform leaves something else there. */
  readonly data: Float64Array;
  /** Σ x(i)·e^(−2πijk/size) for each k; used again by the next transform. */
  transform(): Float64Array;
}

/** @param size a power of two, at least 2 */
export function createFourier(size: number): Fourier {
  const kernels = createKernels(5 * size * Float64Array.BYTES_PER_ELEMENT);
  const [data, other] = [kernels.doubles(2 * size), kernels.doubles(2 * size)];
  const turns = kernels.doubles(size);
  for (let k = 0; k < size / 2; k++) {
    turns.view[2 * k] = Math.cos((2 * Math.PI * k) / size);
    turns.view[2 * k + 1] = -Math.sin((2 * Math.PI * k) / size);
  }
  return {
    size,
    data: data.view,
    transform: () => (kernels.loops.fourier(data.at, other.at, size, turns.at) === data.at ? data.view : other.view),
  };
}
