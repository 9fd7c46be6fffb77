import { describe, expect, it } from 'vitest';
import { cyclicTempogram, tempoPath } from '../../src/rhythm/tempogram.js';

/** A stroke every half second: the same in every window, which are a second apart. */
function strokes(seconds: number) {
  const all = new Float32Array(seconds * 100);
  for (let r = 0; r < all.length; r += 50) all[r] = 50;
  return { rate: 100, start: 0, rows: all.length, bands: [], all };
}

describe('the cyclic tempogram', () => {
  // An odd number of windows: they are transformed in twos.
  it.each([20, 21])('reads %i windows of a steady pulse alike', (seconds) => {
    const { values, bins, windows } = cyclicTempogram(strokes(seconds));
    expect(windows).toBe(seconds);
    const first = values.subarray(5 * bins, 6 * bins);
    for (let w = 6; w < windows - 4; w++) {
      const other = values.subarray(w * bins, (w + 1) * bins);
      first.forEach((v, b) => expect(other[b]).toBeCloseTo(v, 5));
    }
  });

  it('has its path on the pulse', () => {
    const path = tempoPath(cyclicTempogram(strokes(31)));
    for (const frequency of path.subarray(4, 27)) expect(frequency).toBeCloseTo(2, 2);
  });
});
