import { describe, expect, it } from 'vitest';
import { toStereo } from '../../src/audio/index.js';

const one = (value: number) => Float32Array.of(value);
const mixed = (...values: number[]) => toStereo(values.map(one)).map((samples) => samples[0]);

// Coefficients: Recommendation ITU-R BS.775-3, annex 4, table 2: 1 for left and right, 0.7071 for centre and surrounds.
const M3DB = Math.fround(0.7071);

describe('mixing down to left and right', () => {
  it('gives mono to both sides, as the same array', () => {
    const samples = one(0.5);
    expect(toStereo([samples])).toEqual([samples, samples]);
    expect(toStereo([samples])[0]).toBe(samples);
  });

  it('leaves stereo alone', () => {
    const block = [one(0.1), one(0.2)];
    expect(toStereo(block)[0]).toBe(block[0]);
    expect(toStereo(block)[1]).toBe(block[1]);
  });

  it.each([
    [[1, 0, 0, 0, 0, 0], 1, 0],
    [[0, 1, 0, 0, 0, 0], 0, 1],
    [[0, 0, 1, 0, 0, 0], M3DB, M3DB],
    [[0, 0, 0, 1, 0, 0], 0, 0],
    [[0, 0, 0, 0, 1, 0], M3DB, 0],
    [[0, 0, 0, 0, 0, 1], 0, M3DB],
    [[0, 0, 1], M3DB, M3DB],
    [[0, 0, 1, 0], M3DB, 0],
    [[0, 0, 0, 1], 0, M3DB],
    [[0, 0, 0, 1, 0], M3DB, 0],
    [[0, 0, 0, 0, 1], 0, M3DB],
  ])('gives channels %j as %f and %f', (values, left, right) => {
    const [l, r] = mixed(...values);
    expect(l).toBeCloseTo(left, 4);
    expect(r).toBeCloseTo(right, 4);
  });

  it('adds the channels up', () => {
    const [l, r] = mixed(0.1, 0.2, 0.3, 0.9, 0.4, 0.5);
    expect(l).toBeCloseTo(0.1 + (0.3 + 0.4) * Math.SQRT1_2, 6);
    expect(r).toBeCloseTo(0.2 + (0.3 + 0.5) * Math.SQRT1_2, 6);
  });
});
