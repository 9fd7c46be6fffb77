import type { Hertz } from '../units/index.js';

/** Peaks of a magnitude spectrum, strongest first; the arrays are used again. */
export interface SpectralPeaks {
  count: number;
  /** Hertz. */
  readonly frequencies: Float64Array;
  /** Linear, 1 is a full-scale sine. */
  readonly magnitudes: Float64Array;
}

/** Where peaks are looked for. */
export interface PeakRange {
  readonly lowest: Hertz;
  readonly highest: Hertz;
  /** Magnitude that a peak has to exceed (−80 dB: 0.0001). */
  readonly threshold: number;
  /** So many of the strongest are kept. */
  readonly most: number;
}

/**
 * Gives the peaks of magnitude spectra: local maxima, moved to the top of the parabola through three bins.
 * Source: J. O. Smith and X. Serra, "PARSHL: An Analysis/Synthesis Program for Non-Harmonic Sounds" (1987).
 * @param bins of a spectrum, the last at half the rate
 */
export function createPeakPicker(
  bins: number,
  rate: Hertz,
  { lowest, highest, threshold, most }: PeakRange,
): (spectrum: Float32Array) => SpectralPeaks {
  const width = rate / 2 / (bins - 1);
  const first = Math.ceil(lowest / width);
  const last = Math.min(bins - 2, Math.floor(highest / width) + 1);
  const peaks: SpectralPeaks = { count: 0, frequencies: new Float64Array(most), magnitudes: new Float64Array(most) };

  return (x) => {
    peaks.count = 0;
    // A spectrum that falls from the lowest bin on has its peak there.
    if (x[first] > x[first + 1] && x[first] > threshold) keep(peaks, first * width, x[first]);
    for (let k = first + 1; k <= last; k++) {
      const top = x[k];
      if (!(top > threshold && top > x[k - 1] && top > x[k + 1])) continue;
      const slope = x[k - 1] - x[k + 1];
      const off = (0.5 * slope) / (x[k - 1] - 2 * top + x[k + 1]);
      const frequency = (k + off) * width;
      if (frequency <= highest) keep(peaks, frequency, top - 0.25 * slope * off);
    }
    return peaks;
  };
}

/** Inserts a peak by its magnitude; the weakest falls out when there is no more room. */
function keep(peaks: SpectralPeaks, frequency: Hertz, magnitude: number): void {
  const { frequencies, magnitudes } = peaks;
  const room = frequencies.length;
  if (peaks.count === room && magnitude <= magnitudes[room - 1]) return;
  let at = peaks.count < room ? peaks.count++ : room - 1;
  for (; at > 0 && magnitudes[at - 1] < magnitude; at--) {
    magnitudes[at] = magnitudes[at - 1];
    frequencies[at] = frequencies[at - 1];
  }
  magnitudes[at] = magnitude;
  frequencies[at] = frequency;
}
