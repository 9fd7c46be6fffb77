import FFT from 'fft.js';
import { describe, expect, it } from 'vitest';
import { createFourier } from '../../src/rhythm/fourier.js';
import { randomNumbers } from '../../src/units/index.js';

describe('the transform of the tempo stage', () => {
  it.each([2, 4, 8, 2048, 4096, 65_536])('gives what fft.js gives, for %i complex numbers', (n) => {
    const chance = randomNumbers(n);
    const numbers = Float64Array.from({ length: 2 * n }, () => chance() - 0.5);
    const fourier = createFourier(n);
    const expected = new Float64Array(2 * n);
    if (n > 2) new FFT(n).transform(expected, numbers);
    else
      expected.set([
        numbers[0] + numbers[2],
        numbers[1] + numbers[3],
        numbers[0] - numbers[2],
        numbers[1] - numbers[3],
      ]);
    // Twice: what one transform leaves behind must not reach the next.
    for (let turn = 0; turn < 2; turn++) {
      fourier.data.set(numbers);
      const found = fourier.transform();
      let worst = 0;
      for (let i = 0; i < 2 * n; i++) worst = Math.max(worst, Math.abs(found[i] - expected[i]));
      expect(worst).toBeLessThan(1e-12 * n);
    }
  });
});
