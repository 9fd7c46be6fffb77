import { describe, expect, it } from 'vitest';
import { smoothed, smoothedInPlace } from '../../src/rhythm/onsets.js';
import { randomNumbers } from '../../src/units/index.js';

describe('a smoothed curve', () => {
  const chance = randomNumbers(8);

  it.each([0, 1, 3, 4, 5, 300])('is the triangle over five rows, also in place: %i rows', (rows) => {
    const curve = Float32Array.from({ length: rows }, () => chance());
    const expected = Array.from(curve, (_, i) =>
      i < 2 || i + 2 >= rows ? 0 : [1, 2, 3, 2, 1].reduce((sum, w, k) => sum + (w * curve[i + k - 2]) / 9, 0),
    );
    const apart = smoothed(curve);
    expected.forEach((value, i) => expect(apart[i]).toBeCloseTo(value, 6));
    expect(smoothedInPlace(curve)).toBe(curve);
    expect(curve).toEqual(apart);
  });
});
