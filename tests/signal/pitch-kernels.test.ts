import { describe, expect, it } from 'vitest';
import { createKernels } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';
import { withFloats } from './support/with-floats.js';

const chance = randomNumbers(43);
const BINS = 90;
const spectrum = Float32Array.from({ length: BINS }, () => chance() ** 3);

/** Peaks between two bins, the highest first, as plain code finds them. */
function plainPeaks(first: number, last: number, width: number, highest: number, threshold: number, most: number) {
  const peaks: { frequency: number; magnitude: number }[] = [];
  for (let k = first; k <= last; k++) {
    const [a, b, c] = [spectrum[k - 1], spectrum[k], spectrum[k + 1]];
    if (k === first) {
      if (b > c && b > threshold) peaks.push({ frequency: first * width, magnitude: b });
      continue;
    }
    if (!(b > threshold && b > a && b > c)) continue;
    const off = (a - c) / 2 / (a - 2 * b + c);
    const frequency = (k + off) * width;
    if (frequency <= highest) peaks.push({ frequency, magnitude: b - ((a - c) / 4) * off });
  }
  return peaks.sort((x, y) => y.magnitude - x.magnitude).slice(0, most);
}

// Each compiled loop against plain ones.
describe('the compiled loops over spectra', () => {
  it('put samples under a window and take magnitudes', () => {
    const { kernels, loops, at } = withFloats(spectrum);
    const window = Float64Array.from({ length: BINS }, () => chance());
    const out = kernels.floats(BINS);
    loops.tapered(at, kernels.doubles(window).at, BINS, out.at);
    spectrum.forEach((v, i) => expect(out.view[i]).toBe(Math.fround(v * window[i])));
    out.view[0] = -0.5;
    const magnitudes = kernels.floats(BINS / 2);
    loops.magnitudes(out.at, BINS / 2, magnitudes.at);
    expect(magnitudes.view[0]).toBe(0.5);
    for (let k = 1; k < BINS / 2; k++)
      expect(magnitudes.view[k]).toBeCloseTo(Math.hypot(out.view[2 * k], out.view[2 * k + 1]), 6);
  });

  it('follow the envelope by energies that are weighted by energy', () => {
    const { kernels, loops, at } = withFloats(spectrum);
    const stretches = [0, 4, 3, 10, 40, 20, 80, 5];
    const weights = Array.from({ length: 39 }, () => chance());
    const levels = kernels.doubles(4);
    loops.envelope(at, kernels.integers(stretches).at, kernels.doubles(weights).at, 4, -200, levels.at);
    let from = 0;
    for (let p = 0; p < 3; p++) {
      let [sum, weight] = [0, 0];
      for (let i = 0; i < stretches[2 * p + 1]; i++) {
        const energy = spectrum[stretches[2 * p] + i] ** 2;
        sum += weights[from + i] * energy * energy;
        weight += weights[from + i] * energy;
      }
      from += stretches[2 * p + 1];
      expect(levels.view[p]).toBeCloseTo(10 * Math.log10(sum / weight), 10);
    }
    expect(levels.view[3]).toBe(levels.view[2]);
  });

  it('call silence nothing', () => {
    const { kernels, loops, at } = withFloats(new Float32Array(10));
    const levels = kernels.doubles(2);
    const weights = kernels.doubles(new Array<number>(8).fill(1)).at;
    loops.envelope(at, kernels.integers([0, 4, 4, 4]).at, weights, 2, -200, levels.at);
    expect([...levels.view]).toEqual([-200, -200]);
  });

  it.each([3, 8, 60])('find the %i highest peaks, the first bin counting where the spectrum falls from it', (most) => {
    for (const first of [2, 5, 6, 7, 11]) {
      const { kernels, loops, at } = withFloats(spectrum);
      const room = kernels.doubles(2 * most);
      const found = loops.peaksOf(at, first, 85, 10.5, 870, 0.02, most, room.at);
      const expected = plainPeaks(first, 85, 10.5, 870, 0.02, most);
      expect(found).toBe(expected.length);
      expected.forEach(({ frequency, magnitude }, i) => {
        expect(room.view[2 * i]).toBeCloseTo(frequency, 9);
        expect(room.view[2 * i + 1]).toBeCloseTo(magnitude, 12);
      });
    }
  });

  it('measure peaks against the envelope', () => {
    const peaks = [120, 1, 250, 0.01, 399, 1e-4, 310, 1e-12];
    const levels = [-20, -30, -10, -12, -40, -40];
    const kernels = createKernels();
    const room = kernels.doubles(peaks);
    kernels.loops.whitened(room.at, 4, kernels.doubles(levels).at, 100, 30, 0.005, -200);
    for (let i = 0; i < 4; i++) {
      const [frequency, magnitude] = [peaks[2 * i], peaks[2 * i + 1]];
      const p = Math.floor(frequency / 100);
      const envelope = levels[p] + (frequency / 100 - p) * (levels[p + 1] - levels[p]);
      const above = (magnitude < 1e-10 ? -200 : 20 * Math.log10(magnitude)) - envelope;
      const level = above > 0 ? 0 : above > -30 ? above : -200;
      expect(room.view[2 * i]).toBe(frequency);
      expect(room.view[2 * i + 1] / 10 ** ((level - 0.005 * frequency) / 20)).toBeCloseTo(1, 12);
    }
  });

  it('add peaks to the pitch classes that they may be overtones of', () => {
    // A4, a quarter of a semitone above it, C1 below what counts, and B8.
    const peaks = [440, 1, 440 * 2 ** (1 / 48), 0.5, 32.7, 9, 7902.13, 0.1];
    const partials = [0, 1, 7.01955, 0.25];
    const kernels = createKernels();
    const profile = kernels.doubles(12);
    kernels.loops.addPeaks(profile.at, kernels.doubles(peaks).at, 4, 100, 440, 9, kernels.doubles(partials).at, 2);
    const expected = new Float64Array(12);
    for (const i of [0, 2, 6])
      for (const k of [0, 2]) {
        const pitch = 9 + 12 * Math.log2(peaks[i] / 440) - partials[k];
        const nearest = Math.floor(pitch + 0.5);
        expected[((nearest % 12) + 12) % 12] +=
          peaks[i + 1] ** 2 * partials[k + 1] * Math.cos(Math.PI * (pitch - nearest));
      }
    expected.forEach((power, c) => expect(profile.view[c]).toBeCloseTo(power, 12));
    expect(profile.view[9]).toBeGreaterThan(1);
  });
});
