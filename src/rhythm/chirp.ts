import FFT from 'fft.js';
import type { ComplexRow } from './loops.js';

/**
 * What `magnitudesBeside` gives, in time that grows with the length and not with its square: the chirp z-transform (Rabiner,
 * Schafer & Rader, "The chirp z-transform algorithm", 1969). As 2ib = i² + b² − (i − b)², the sums Σ z(b)·e^(jibβ) are a
 * convolution of z(b)·e^(jb²β/2) with e^(−jn²β/2), but for a turn that no magnitude shows; an angle that grows with i shows in none
 * either. Rounding makes them differ from sums taken one by one by less than 10⁻⁹ of the largest.
 * @param turn β (radians)
 * @param out for i from 0 to `steps` the magnitude forwards, and at i + steps + 1 backwards
 */
export function magnitudesByChirp({ re, im }: ComplexRow, turn: number, steps: number, out: Float64Array): void {
  const blocks = re.length;
  let size = 4;
  while (size < blocks + 2 * steps + 1) size *= 2;
  const fft = new FFT(size);
  const [data, spectrum, filter] = [0, 1, 2].map(() => new Float64Array(2 * size));
  setChirped(data, re, im, turn);
  fft.transform(spectrum, data);
  // From −(steps + blocks − 1) to steps, the negative ones from the end backwards.
  data.fill(0);
  setChirp(data, turn, 0, steps);
  setChirp(data, turn, -(steps + blocks - 1), -1);
  fft.transform(filter, data);
  multiply(spectrum, filter);
  fft.inverseTransform(data, spectrum);
  for (let i = 0; i <= steps; i++) {
    out[i] = magnitudeOf(data, i);
    out[steps + 1 + i] = magnitudeOf(data, i === 0 ? 0 : size - i);
  }
}

function setChirped(data: Float64Array, re: Float64Array, im: Float64Array, turn: number): void {
  for (let b = 0; b < re.length; b++) {
    const cos = Math.cos((b * b * turn) / 2);
    const sin = Math.sin((b * b * turn) / 2);
    data[2 * b] = re[b] * cos - im[b] * sin;
    data[2 * b + 1] = re[b] * sin + im[b] * cos;
  }
}

/** e^(−jn²β/2) for n from one to another, where n stands in a circle. */
function setChirp(data: Float64Array, turn: number, from: number, to: number): void {
  for (let n = from; n <= to; n++) {
    const at = n < 0 ? data.length + 2 * n : 2 * n;
    data[at] = Math.cos((n * n * turn) / 2);
    data[at + 1] = -Math.sin((n * n * turn) / 2);
  }
}

function multiply(x: Float64Array, y: Float64Array): void {
  for (let i = 0; i < x.length; i += 2) {
    const re = x[i] * y[i] - x[i + 1] * y[i + 1];
    x[i + 1] = x[i] * y[i + 1] + x[i + 1] * y[i];
    x[i] = re;
  }
}

function magnitudeOf(data: Float64Array, i: number): number {
  return Math.hypot(data[2 * i], data[2 * i + 1]);
}
