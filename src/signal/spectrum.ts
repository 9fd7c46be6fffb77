import FFT from 'fft.js';

/** Power spectrum of one windowed real frame; the array is reused by the next call. */
export type PowerSpectrum = (frame: Float32Array) => Float64Array;

/** Periodic Hann window of n samples, scaled so that a full-scale sine has power 1 in its bin. */
export function hann(n: number): Float64Array {
  const w = new Float64Array(n);
  for (let i = 0; i < n; i++) w[i] = (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / n)) * (4 / n);
  return w;
}

/** Bins 0…n/2 of |FFT|² of frames of n samples (a power of two) under a Hann window. */
export function createPowerSpectrum(n: number): PowerSpectrum {
  const fft = new FFT(n);
  const window = hann(n);
  const input = new Float64Array(n);
  const output = new Float64Array(2 * n);
  const power = new Float64Array(n / 2 + 1);
  return (frame) => {
    for (let i = 0; i < n; i++) input[i] = frame[i] * window[i];
    fft.realTransform(output, input);
    for (let k = 0; k <= n / 2; k++) {
      const re = output[2 * k];
      const im = output[2 * k + 1];
      power[k] = re * re + im * im;
    }
    return power;
  };
}
