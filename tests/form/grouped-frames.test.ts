import { describe, expect, it } from 'vitest';
import { createGroupedFrames, GROUP_EDGES, GROUPS } from '../../src/form/grouped-frames.js';
import { BAND_COUNT, BAND_EDGES, type FrontEnd } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';

describe('the grouped frames', () => {
  it('add up the bands whose middle lies in each group, in whatever order frames are read', () => {
    const rows = 9001;
    const chance = randomNumbers(3);
    const values = Float32Array.from({ length: rows * BAND_COUNT }, () => chance());
    const frontEnd = { bands: { values, columns: BAND_COUNT, rows, rate: 100, start: 0 } } as unknown as FrontEnd;
    const frames = createGroupedFrames(frontEnd);
    expect(frames.count).toBe(rows);
    for (const f of [0, 1, 4095, 4096, 4097, 9000, 5000, 100, 8192, 8191]) {
      const expected = new Float64Array(GROUPS);
      for (let k = 0; k < BAND_COUNT; k++) {
        const middle = Math.sqrt(Math.max(BAND_EDGES[k], 1) * BAND_EDGES[k + 1]);
        const g = GROUP_EDGES.findLastIndex((edge) => middle >= edge);
        expected[Math.min(g, GROUPS - 1)] += values[f * BAND_COUNT + k];
      }
      const found = frames.around(f);
      expected.forEach((power, g) => expect(found[(f - frames.first) * GROUPS + g]).toBeCloseTo(power, 4));
    }
  });
});
