import { realFft } from './fft.js';

/** Periodic Hann window of n samples, scaled so that a full-scale sine has power 1 in its bin. */
export function hann(n: number): Float32Array {
  const w = new Float32Array(n);
  for (let i = 0; i < n; i++) w[i] = (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / n)) * (4 / n);
  return w;
}

/** Gives the power spectrum of a real frame; the array is used again. */
export type PowerSpectrum = (frame: Float32Array) => Float32Array;

/**
 * Bins 0…lastBin of |FFT|² of frames of n samples (a power of two) under a Hann window.
 * @param lastBin below n/2
 */
export function createPowerSpectrum(n: number, lastBin: number): PowerSpectrum {
  const fft = realFft(n);
  const window = hann(n);
  const power = new Float32Array(lastBin + 1);
  return (frame) => powerSpectrum(frame, window, fft.input(), () => fft.transform(), power);
}

function powerSpectrum(
  frame: Float32Array,
  window: Float32Array,
  input: Float32Array,
  transform: () => Float32Array,
  power: Float32Array,
): Float32Array {
  for (let i = 0; i < window.length; i++) input[i] = frame[i] * window[i];
  const spectrum = transform();
  power[0] = spectrum[0] * spectrum[0];
  for (let k = 1; k < power.length; k++) {
    const re = spectrum[2 * k];
    const im = spectrum[2 * k + 1];
    power[k] = re * re + im * im;
  }
  return power;
}
