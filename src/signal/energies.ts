import { borrowKernels } from './kernels/kernels.js';

/** Adds the energies of two channels and the sum of their products to three sums, sample by sample. */
export function addEnergies(left: Float32Array, right: Float32Array, sums: Float64Array): void {
  const kernels = borrowKernels(8 * left.length + 8 * sums.length);
  const [l, r] = [kernels.floats(left.length), kernels.floats(left.length)];
  const out = kernels.doubles(sums);
  l.view.set(left);
  r.view.set(right.subarray(0, left.length));
  kernels.loops.energies(l.at, r.at, left.length, out.at);
  sums.set(out.view);
}
