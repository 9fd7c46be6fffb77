import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compileKernels, KERNELS } from '../../src/setup/kernels.mjs';
import { butterworth, createBiquad } from '../../src/signal/index.js';
import { createDecimator } from '../../src/signal/decimator.js';
import { growing } from '../../src/signal/growing.js';
import { createKernels } from '../../src/signal/kernels/kernels.js';
import { createFineMeter, createStereoMeter } from '../../src/signal/meters.js';

const N = 4410;
const noise = (seed: number) => Float32Array.from({ length: N }, (_, i) => Math.sin(i * i * 12.9898 + seed) * 0.7);

function withSamples(...channels: Float32Array[]) {
  const kernels = createKernels();
  const rooms = channels.map((channel) => {
    const room = kernels.floats(N);
    room.view.set(channel);
    return room;
  });
  return { kernels, rooms };
}

describe('the compiled sample loops', () => {
  it('are what their source compiles to', async () => {
    expect(Buffer.from(await compileKernels()).equals(readFileSync(KERNELS))).toBe(true);
  }, 60_000);

  it('split two channels into middle and side, for any length', () => {
    const [left, right] = [noise(1), noise(2)];
    const { kernels, rooms } = withSamples(left, right, left, right);
    for (const n of [0, 1, 3, 4, 7, N - 1]) {
      const [l, r, m, s] = rooms;
      const energy = kernels.loops.split(l.at, r.at, m.at, s.at, n);
      let expected = 0;
      for (let i = 0; i < n; i++) {
        expect(m.view[i]).toBe(Math.fround((left[i] + right[i]) / 2));
        expect(s.view[i]).toBe(Math.fround((left[i] - right[i]) / 2));
        expected += m.view[i] ** 2;
      }
      expect(energy).toBeCloseTo(expected, 9);
    }
  });

  it('measure the fine energies as two filters one after the other do', () => {
    const x = noise(3);
    const { kernels, rooms } = withSamples(x);
    const rows = growing(3);
    const meter = createFineMeter(kernels, rows, N);
    meter(rooms[0], N);
    const [low, high] = [butterworth('low', 150, 44_100), butterworth('high', 5000, 44_100)].map(createBiquad);
    const expected = new Float64Array(300);
    let before = 0;
    x.forEach((value, i) => {
      const row = Math.min(99, Math.floor((i / 44_100) * 1000 + 1e-9));
      expected[row * 3] += (value - before) ** 2;
      expected[row * 3 + 1] += low(value) ** 2;
      expected[row * 3 + 2] += high(value) ** 2;
      before = value;
    });
    // A millisecond is 44.1 samples: sums over ten of them meet at whole samples.
    for (let column = 0; column < 3; column++) {
      const sum = (of: ArrayLike<number>) => {
        let total = 0;
        for (let row = 0; row < 100; row++) total += of[row * 3 + column];
        return total;
      };
      expect(sum(rows.data) / sum(expected)).toBeCloseTo(1, 6);
    }
  });

  it('measure the power of middle and side', () => {
    const [mid, side] = [noise(4), noise(5)];
    const { kernels, rooms } = withSamples(mid, side);
    const rows = growing(2);
    createStereoMeter(kernels, rows)(rooms[0], rooms[1], N);
    const power = (x: Float32Array) => x.subarray(221, 662).reduce((sum, v) => sum + v * v, 0) / 441;
    expect(rows.data[2]).toBeCloseTo(power(mid), 6);
    expect(rows.data[3]).toBeCloseTo(power(side), 6);
  });

  it('keep every fourth sample after the low-pass twice', () => {
    const x = noise(6);
    const { kernels, rooms } = withSamples(x);
    const decimate = createDecimator(kernels, 4, N);
    const count = decimate(rooms[0], N);
    expect(count).toBe(Math.ceil(N / 4));
    const [once, twice] = [0, 1].map(() => createBiquad(butterworth('low', 3500, 44_100)));
    x.forEach((value, i) => {
      const y = twice(once(value));
      if (i % 4 === 0) expect(decimate.kept.view[i / 4]).toBe(Math.fround(y));
    });
  });

  it('say so when their memory is full', () => {
    expect(() => createKernels().floats(1e6)).toThrow(RangeError);
  });
});
