import FFT from 'fft.js';

/**
 * Autocorrelation of a curve with its mean removed, by the Wiener–Khinchin theorem: lags 0…maxLag in rows, divided by
 * the number of products and scaled so that lag 0 is 1. All zeros for a flat curve.
 */
export function autocorrelation(curve: Float32Array, maxLag: number): Float64Array {
  let size = 4;
  while (size < curve.length + maxLag + 1) size *= 2;
  const fft = new FFT(size);
  const data = new Float64Array(2 * size);
  let mean = 0;
  for (const v of curve) mean += v / curve.length;
  for (let i = 0; i < curve.length; i++) data[2 * i] = curve[i] - mean;
  const spectrum = new Float64Array(2 * size);
  fft.transform(spectrum, data);
  for (let k = 0; k < size; k++) {
    spectrum[2 * k] = spectrum[2 * k] ** 2 + spectrum[2 * k + 1] ** 2;
    spectrum[2 * k + 1] = 0;
  }
  fft.inverseTransform(data, spectrum);
  const out = new Float64Array(maxLag + 1);
  const zero = data[0] / curve.length;
  if (!(zero > 0)) return out;
  for (let lag = 0; lag <= maxLag && lag < curve.length; lag++) {
    // Lags near the length of the curve rest on few products; half the curve at least keeps them tame.
    out[lag] = data[2 * lag] / Math.max(curve.length - lag, curve.length / 2) / zero;
  }
  return out;
}

/** The autocorrelation at a fractional lag, linearly interpolated; 0 beyond its end. */
export function atLag(acf: Float64Array, lag: number): number {
  const i = Math.floor(lag);
  if (i < 0 || i + 1 >= acf.length) return 0;
  return acf[i] + (lag - i) * (acf[i + 1] - acf[i]);
}
