import FFT from 'fft.js';

/** Variance below which a curve is flat; onset curves have mean 1. */
const NOTHING = 1e-12;

/**
 * Autocorrelations of two curves of one length with their means removed, by the Wiener–Khinchin theorem: lags 0…maxLag in
 * rows, divided by the number of products and scaled so that lag 0 is 1. All zeros for a flat curve. One transform serves
 * both, one as the real and one as the imaginary part.
 */
export function autocorrelations(
  curves: readonly [Float32Array, Float32Array],
  maxLag: number,
): [Float64Array, Float64Array] {
  const { length } = curves[0];
  let size = 4;
  while (size < length + maxLag + 1) size *= 2;
  const fft = new FFT(size);
  const data = new Float64Array(2 * size);
  const spectrum = new Float64Array(2 * size);
  setCentred(data, 0, curves[0]);
  setCentred(data, 1, curves[1]);
  fft.transform(spectrum, data);
  powersApart(spectrum, size);
  fft.inverseTransform(data, spectrum);
  return [lagsOf(data, 0, length, maxLag), lagsOf(data, 1, length, maxLag)];
}

/** Puts a curve less its mean into the real (0) or the imaginary parts (1). */
function setCentred(data: Float64Array, part: number, curve: Float32Array): void {
  let mean = 0;
  for (let i = 0; i < curve.length; i++) mean += curve[i] / curve.length;
  for (let i = 0; i < curve.length; i++) data[2 * i + part] = curve[i] - mean;
}

/**
 * The spectrum of a + ib, a and b real, into the power of a as real part and that of b as imaginary part: the spectrum of a is
 * what the bins at k and at −k have in common, that of b in what they differ.
 */
function powersApart(spectrum: Float64Array, size: number): void {
  for (let k = 0; k <= size >> 1; k++) {
    const here = 2 * k;
    const there = 2 * ((size - k) % size);
    const sumRe = (spectrum[here] + spectrum[there]) / 2;
    const sumIm = (spectrum[here + 1] - spectrum[there + 1]) / 2;
    const differenceRe = (spectrum[here + 1] + spectrum[there + 1]) / 2;
    const differenceIm = (spectrum[there] - spectrum[here]) / 2;
    spectrum[here] = spectrum[there] = sumRe * sumRe + sumIm * sumIm;
    spectrum[here + 1] = spectrum[there + 1] = differenceRe * differenceRe + differenceIm * differenceIm;
  }
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
