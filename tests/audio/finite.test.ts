import { describe, expect, it } from 'vitest';
import { makeFinite } from '../../src/audio/finite.js';

describe('samples that are no finite number', () => {
  // At every place relative to the four that are looked at together, and in an array that begins inside its memory.
  it.each([0, 1, 2, 3, 4, 9, 10])('are found and set to 0 at place %i', (place) => {
    for (const value of [NaN, -NaN, Infinity, -Infinity]) {
      const samples = new Float32Array(14).fill(-0.5).subarray(3);
      samples[place] = value;
      expect(makeFinite([samples.slice(), samples])).toBe(2);
      expect(samples[place]).toBe(0);
      expect(samples.filter((v) => v === -0.5)).toHaveLength(10);
    }
  });

  it('are not what is merely large, small or negative', () => {
    const samples = Float32Array.of(3.4e38, -3.4e38, 1e-45, -0, 1, -1, 0);
    const before = samples.slice();
    expect(makeFinite([samples])).toBe(0);
    expect(samples).toEqual(before);
  });
});
