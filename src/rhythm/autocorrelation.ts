import FFT from 'fft.js';
import { borrowKernels } from '../signal/index.js';

/** Variance below which a curve is flat; onset curves have mean 1. */
const NOTHING = 1e-12;

/** A transform is at least this many times as long as the longest lag: its better part is new with every block. */
const TRANSFORM_LAGS = 4;

/**
 * Autocorrelations of two curves of one length with their means removed: lags 0…maxLag in rows, divided by the number of
 * products and scaled so that lag 0 is 1. All zeros for a flat curve. By the Wiener–Khinchin theorem, block by block, each
 * against itself and what follows within the longest lag, so that long music needs no more memory; the spectra of all blocks
 * are added up. One transform serves both curves, one as the real and one as the imaginary part.
 */
export function autocorrelations(
  curves: readonly [Float32Array, Float32Array],
  maxLag: number,
): [Float64Array, Float64Array] {
  const { length } = curves[0];
  let size = 4;
  while (size < TRANSFORM_LAGS * (maxLag + 1)) size *= 2;
  const step = size - maxLag;
  const kernels = borrowKernels(8 * size + 4 * 16 * size);
  const { loops } = kernels;
  const [a, b] = [kernels.floats(size), kernels.floats(size)];
  const [data, block, ahead, sums] = Array.from({ length: 4 }, () => kernels.doubles(2 * size));
  const fft = new FFT(size);
  const [meanOfA, meanOfB] = curves.map(meanOf);
  for (let from = 0; from < length; from += step) {
    const rows = Math.min(size, length - from);
    a.view.set(curves[0].subarray(from, from + rows));
    b.view.set(curves[1].subarray(from, from + rows));
    loops.paired(a.at, b.at, Math.min(rows, step), meanOfA, meanOfB, size, data.at);
    fft.transform(block.view, data.view);
    loops.paired(a.at, b.at, rows, meanOfA, meanOfB, size, data.at);
    fft.transform(ahead.view, data.view);
    loops.shared(block.at, ahead.at, size, sums.at);
  }
  fft.inverseTransform(data.view, sums.view);
  return [lagsOf(data.view, 0, length, maxLag), lagsOf(data.view, 1, length, maxLag)];
}

function meanOf(curve: Float32Array): number {
  let mean = 0;
  for (let i = 0; i < curve.length; i++) mean += curve[i] / curve.length;
  return mean;
}

function lagsOf(data: Float64Array, part: number, length: number, maxLag: number): Float64Array {
  const out = new Float64Array(maxLag + 1);
  const zero = data[part] / length;
  // A flat curve leaves the rounding of the other behind.
  if (!(zero > NOTHING)) return out;
  for (let lag = 0; lag <= maxLag && lag < length; lag++) {
    // Lags near the length of the curve rest on few products; half the curve at least keeps them tame.
    out[lag] = data[2 * lag + part] / Math.max(length - lag, length / 2) / zero;
  }
  return out;
}

/** The autocorrelation at a fractional lag, linearly interpolated; 0 beyond its end. */
export function atLag(acf: Float64Array, lag: number): number {
  const i = Math.floor(lag);
  if (i < 0 || i + 1 >= acf.length) return 0;
  return acf[i] + (lag - i) * (acf[i + 1] - acf[i]);
}
