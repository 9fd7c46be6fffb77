import { describe, expect, it } from 'vitest';
import { autocorrelations } from '../../src/rhythm/autocorrelation.js';
import { randomNumbers } from '../../src/units/index.js';

const chance = randomNumbers(5);
const drawn = (n: number) => Float32Array.from({ length: n }, () => chance());

/** The definition: products of the curve less its mean with itself, `lag` later. */
function plain(curve: Float32Array, lag: number): number {
  const mean = curve.reduce((a, b) => a + b, 0) / curve.length;
  const products = (k: number) => {
    let sum = 0;
    for (let i = 0; i + k < curve.length; i++) sum += (curve[i] - mean) * (curve[i + k] - mean);
    return sum;
  };
  return (products(lag) / Math.max(curve.length - lag, curve.length / 2) / products(0)) * curve.length;
}

describe('the autocorrelations of two curves', () => {
  // In one block and in several, the last of them whole, short, or shorter than the longest lag.
  it.each([301, 824, 4120, 4500, 5000])('are what their definition says, each curve for itself: %i values', (n) => {
    const curves = [drawn(n), drawn(n).map((v) => 40 * v ** 3)] as const;
    autocorrelations(curves, 200).forEach((found, c) => {
      for (let lag = 0; lag <= 200; lag += 7) expect(found[lag]).toBeCloseTo(plain(curves[c], lag), 9);
    });
  });

  it('are nothing for a flat curve beside another', () => {
    const [found, flat] = autocorrelations([drawn(300), new Float32Array(300).fill(0.7)], 50);
    expect(found[0]).toBeCloseTo(1, 12);
    expect(flat.every((v) => v === 0)).toBe(true);
  });
});
