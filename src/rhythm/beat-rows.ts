import { borrowKernels } from '../signal/index.js';

/** Numbers that describe beats, a row each. */
export interface BeatRows {
  readonly values: Float64Array;
  readonly count: number;
  /** Values from one row to the next, of which the first `width` count. */
  readonly stride: number;
  readonly width: number;
}

/** Distance of each beat from the one `lag` before; 0 where there is none. */
export function distancesAt({ values, count, stride, width }: BeatRows, lag: number): Float64Array {
  const kernels = borrowKernels(8 * (values.length + count));
  const [rows, out] = [kernels.doubles(values), kernels.doubles(count)];
  kernels.loops.distant(rows.at, count, stride, width, lag, out.at);
  return out.view.slice();
}

/** Sum of products of each beat and the one `lag` before, over whole rows; 0 where there is none. */
export function productsAt({ values, count, stride }: BeatRows, lag: number): Float64Array {
  const kernels = borrowKernels(8 * (values.length + count));
  const [rows, out] = [kernels.doubles(values), kernels.doubles(count)];
  kernels.loops.alike(rows.at, count, stride, lag, out.at);
  return out.view.slice();
}
