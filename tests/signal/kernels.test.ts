import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compileKernels, KERNELS } from '../../src/setup/kernels.mjs';
import { butterworth, createBiquad } from '../../src/signal/index.js';
import { createPeakFollower } from '../../src/loudness/truepeak.js';
import { createDecimator } from '../../src/signal/decimator.js';
import { growing } from '../../src/signal/growing.js';
import { addEnergies } from '../../src/signal/energies.js';
import { createKernels } from '../../src/signal/kernels/kernels.js';
import { createFineMeter, createStereoMeter } from '../../src/signal/meters.js';

const N = 4410;
const noise = (seed: number) => Float32Array.from({ length: N }, (_, i) => Math.sin(i * i * 12.9898 + seed) * 0.7);

/** The highest absolute value of a signal and of three points between each sample and the next, by the filter of truepeak.ts. */
function highestBetween(x: Float32Array): number {
  const at = (i: number) => x[i] ?? 0;
  const kaiser = (t: number) => besselI0(6 * Math.sqrt(1 - (t / 8) ** 2));
  const filters = [1, 2, 3].map((p) => {
    const taps = Array.from({ length: 16 }, (_, k) => k - 7 - p / 4).map(
      (t) => (Math.sin(Math.PI * t) / (Math.PI * t)) * kaiser(t),
    );
    const sum = taps.reduce((a, b) => a + b, 0);
    return taps.map((tap) => tap / sum);
  });
  let highest = 0;
  for (let i = 0; i < x.length; i++) {
    highest = Math.max(highest, Math.abs(x[i]));
    for (const taps of filters)
      highest = Math.max(highest, Math.abs(taps.reduce((s, tap, k) => s + tap * at(i - 7 + k), 0)));
  }
  return highest;
}

/** Modified Bessel function of order 0 (Abramowitz and Stegun, 9.6.12). */
function besselI0(x: number): number {
  let [sum, term] = [1, 1];
  for (let k = 1; term > 1e-14 * sum; k++) sum += term *= (x / (2 * k)) ** 2;
  return sum;
}

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
    createStereoMeter(kernels, rows, N)(rooms[0], rooms[1], N);
    const power = (x: Float32Array) => x.subarray(221, 662).reduce((sum, v) => sum + v * v, 0) / 441;
    expect(rows.data[2]).toBeCloseTo(power(mid), 6);
    expect(rows.data[3]).toBeCloseTo(power(side), 6);
  });

  // In pieces whose lengths leave every remainder by four, and some shorter than what is skipped.
  it('keep every fourth sample after the low-pass twice, however the samples come', () => {
    const x = noise(6);
    const { kernels, rooms } = withSamples(x);
    const decimate = createDecimator(kernels, N);
    const kept: number[] = [];
    const sizes = [1, 2, 1, 5, 6, 7, 8, 1000, 3, N];
    for (let from = 0; from < N; from += sizes.shift()!) {
      const part = x.subarray(from, from + sizes[0]);
      rooms[0].view.set(part);
      const count = decimate(rooms[0], part.length);
      kept.push(...decimate.kept.view.subarray(0, count));
    }
    expect(kept).toHaveLength(Math.ceil(N / 4));
    const [once, twice] = [0, 1].map(() => createBiquad(butterworth('low', 3500, 44_100)));
    x.forEach((value, i) => {
      const y = twice(once(value));
      if (i % 4 === 0) expect(Math.abs(kept[i / 4] - y)).toBeLessThan(1e-7);
    });
  });

  it('find the highest value where looking at every sample finds it', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const waves = Array.from({ length: 9 }, (_, k) => 0.1 + ((seed * 7 + k * k * 13) % 11) / 10);
      const x = Float32Array.from({ length: 4000 }, (_, i) =>
        waves.reduce((sum, w, k) => sum + 0.12 * Math.sin(w * i + k * seed) * Math.sin((i * (k + 1)) / 700), 0),
      );
      const follower = createPeakFollower(44_100, createKernels());
      for (let from = 0; from < x.length; from += 501) follower.push(x.subarray(from, from + 501));
      expect(follower.finish()).toBeCloseTo(highestBetween(x), 9);
    }
  });

  it('add up the energies of two channels', () => {
    const [left, right] = [noise(8), noise(9)];
    const sums = Float64Array.of(1, 2, 3);
    addEnergies(left, right, sums);
    const product = (a: Float32Array, b: Float32Array) => a.reduce((sum, v, i) => sum + v * b[i], 0);
    const expected = [1 + product(left, left), 2 + product(right, right), 3 + product(left, right)];
    sums.forEach((sum, i) => expect(sum).toBeCloseTo(expected[i], 9));
  });

  it('bring samples to a level, with a fade and without what is no number', () => {
    const x = noise(10);
    x[7] = NaN;
    x[2000] = Infinity;
    const { kernels, rooms } = withSamples(x);
    const clean = x.map((v) => (Number.isFinite(v) ? v : 0));
    expect(kernels.loops.squares(rooms[0].at, N)).toBeCloseTo(
      clean.reduce((sum, v) => sum + v * v, 0),
      9,
    );
    kernels.loops.faded(rooms[0].at, N, 0.3, 50, 100);
    clean.forEach((v, i) => {
      const share = Math.min(i, N - 1 - i) < 50 ? Math.min(i, N - 1 - i) / 100 : 1;
      expect(rooms[0].view[i]).toBeCloseTo(0.3 * v * share, 6);
    });
  });

  it('add the power of bins to their classes', () => {
    const { kernels, rooms } = withSamples(noise(7));
    const [bins, places] = [kernels.integers([3, 5, 900, 2]), kernels.integers([1, 0, 1, 2])];
    const weights = kernels.doubles([1, 0.25, 2, 0]);
    const out = kernels.floats(3);
    out.view.set([0, 0, 1]);
    kernels.loops.classes(rooms[0].at, 4, bins.at, places.at, weights.at, out.at);
    const power = (k: number) => rooms[0].view[2 * k] ** 2 + rooms[0].view[2 * k + 1] ** 2;
    expect(out.view[0]).toBeCloseTo(0.25 * power(5), 6);
    expect(out.view[1]).toBeCloseTo(power(3) + 2 * power(900), 6);
    expect(out.view[2]).toBe(1);
  });

  it('have as much memory as they are asked for, and say so when it is full', () => {
    expect(() => createKernels().floats(1e6)).toThrow(RangeError);
    const kernels = createKernels(8e6);
    const { view } = kernels.doubles(1e6);
    view[999_999] = 1;
    expect(view.reduce((a, b) => a + b, 0)).toBe(1);
    expect(() => kernels.floats(1e6)).toThrow(RangeError);
  });
});
