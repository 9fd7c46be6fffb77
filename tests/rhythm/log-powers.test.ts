import { describe, expect, it } from 'vitest';
import { logPowers } from '../../src/rhythm/log-powers.js';
import { randomNumbers } from '../../src/units/index.js';

const COLUMNS = 5;
const ROWS = 7000;
const chance = randomNumbers(11);
const values = Float32Array.from({ length: ROWS * COLUMNS }, () => chance() ** 4);
const bands = { values, columns: COLUMNS, rows: ROWS, rate: 100, start: 0 };

describe('log powers', () => {
  it('are taken over a hundredth of the mean of their column', () => {
    let mean = 0;
    for (let r = 0; r < ROWS; r++) mean += values[r * COLUMNS + 2] / ROWS;
    const row = logPowers(bands).read(1234, 1235);
    expect(row).toHaveLength(COLUMNS);
    expect(row[2]).toBeCloseTo(Math.log(1 + values[1234 * COLUMNS + 2] / (0.01 * mean)), 5);
  });

  it('are the same to the bit where they are worked out as they are read, in any order', () => {
    const [kept, read] = [logPowers(bands), logPowers(bands, 0)];
    for (const [from, to] of [
      [0, 3],
      [3, 4000],
      [3990, 4010],
      [6000, ROWS],
      [ROWS - 1, ROWS],
      [10, 20],
      [2050, 2060],
      [5, 5],
    ])
      // prettier-ignore
      expect(read.read(from, to)).toEqual(kept.read(from, to));
  });
});
