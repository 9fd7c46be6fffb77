import { describe, expect, it } from 'vitest';
import { createKernels } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';

const chance = randomNumbers(12);
const drawn = (n: number) => Float32Array.from({ length: n }, () => chance());
const doubles = (n: number) => Float64Array.from({ length: n }, () => chance());

const RATE = 100;
const START = 0.013;

/** A curve read between its rows; 0 outside. */
function valueAt(curve: Float32Array, time: number): number {
  const x = (time - START) * RATE;
  const i = Math.floor(x);
  return i < 0 || i + 1 >= curve.length ? 0 : curve[i] + (x - i) * (curve[i + 1] - curve[i]);
}

/** Beats from before a curve to behind it, not quite even. */
const BEATS = Float64Array.from({ length: 30 }, (_, b) => -0.6 + b * 0.51 + 0.02 * Math.sin(b));
const COUNT = BEATS.length - 1;
const timeOf = (b: number, share: number) => BEATS[b] + share * (BEATS[b + 1] - BEATS[b]);

function withCurve() {
  const curve = drawn(1201);
  const kernels = createKernels();
  const room = kernels.floats(curve.length);
  room.view.set(curve);
  return { curve, kernels, at: room.at, times: kernels.doubles(BEATS).at };
}

// Each compiled loop against plain ones.
describe('the compiled loops over beats', () => {
  it('read a curve at places of each beat, and sum it over beats that take turns', () => {
    const { curve, kernels, at, times } = withCurve();
    const [places, turns, most] = [5, 4, 0.9];
    const [out, sums] = [kernels.doubles(COUNT * places), kernels.doubles(turns * places)];
    kernels.loops.within(at, curve.length, RATE, START, times, COUNT, places, most, out.at);
    kernels.loops.folded(at, curve.length, RATE, START, times, COUNT, places, turns, sums.at);
    const expected = new Float64Array(turns * places);
    for (let b = 0; b < COUNT; b++)
      for (let j = 0; j < places; j++) {
        const value = valueAt(curve, timeOf(b, j / places));
        expect(out.view[b * places + j]).toBeCloseTo(Math.min(value, most), 9);
        expected[(b % turns) * places + j] += value;
      }
    sums.view.forEach((v, i) => expect(v).toBeCloseTo(expected[i], 9));
  });

  it('go on with running sums of shares of roots', () => {
    const [rows, columns] = [7, 12];
    const powers = drawn(rows * columns);
    const kernels = createKernels();
    const [room, sums] = [kernels.floats(rows * columns), kernels.doubles((rows + 1) * columns)];
    room.view.set(powers);
    sums.view.fill(2, 0, columns);
    kernels.loops.rootShares(room.at, rows, columns, sums.at);
    const before = new Float64Array(columns).fill(2);
    for (let r = 0; r <= rows; r++) {
      before.forEach((sum, c) => expect(sums.view[r * columns + c]).toBeCloseTo(sum, 6));
      const roots = powers.subarray(r * columns, (r + 1) * columns).map(Math.sqrt);
      const total = roots.reduce((a, b) => a + b, 1e-9);
      roots.forEach((root, c) => (before[c] += root / total));
    }
  });

  it('sum a curve at times and so much later', () => {
    const { curve, kernels, at, times } = withCurve();
    const later = [0, 0.1, 0.37];
    const sums = kernels.doubles(later.length);
    kernels.loops.foldedLater(
      at,
      curve.length,
      RATE,
      START,
      times,
      BEATS.length,
      kernels.doubles(later).at,
      3,
      sums.at,
    );
    later.forEach((off, j) => {
      const sum = BEATS.reduce((s, time) => s + valueAt(curve, time + off), 0);
      expect(sums.view[j]).toBeCloseTo(sum, 9);
    });
  });

  it('find the likeliest of all ways that stay or jump', () => {
    // All 3⁶ ways of six rows, against the one that the loop finds.
    const [rows, places, jump] = [6, 3, 0.4];
    const emission = doubles(rows * places);
    const kernels = createKernels();
    const [score, room] = [kernels.doubles(places), kernels.integers(rows * places)];
    kernels.loops.staying(kernels.doubles(emission).at, rows, places, jump, score.at, room.at);
    const back = new Int16Array(room.view.buffer, room.at, rows * places);
    const path: number[] = [];
    let p = score.view.indexOf(Math.max(...score.view));
    for (let r = rows - 1; r >= 0; r--) {
      path.unshift(p);
      p = back[r * places + p];
    }
    const worth = (way: readonly number[]) =>
      way.reduce((s, q, r) => s + emission[r * places + q] - (r > 0 && way[r - 1] !== q ? jump : 0), 0);
    const ways = Array.from({ length: places ** rows }, (_, n) =>
      Array.from({ length: rows }, (_, r) => Math.floor(n / places ** r) % places),
    );
    const best = ways.reduce((a, b) => (worth(b) > worth(a) ? b : a));
    expect(path).toEqual(best);
    expect(Math.max(...score.view)).toBeCloseTo(worth(best), 12);
  });

  it('sum beats from their phases on', () => {
    const [count, steps] = [10, 4];
    const values = drawn((count + 1) * steps);
    const path = Int16Array.from({ length: count }, (_, b) => b % steps);
    const kernels = createKernels();
    const [rows, sums, room] = [kernels.floats(values.length), kernels.doubles(steps), kernels.integers(count)];
    rows.view.set(values);
    new Int16Array(room.view.buffer, room.at, count).set(path);
    kernels.loops.along(rows.at, room.at, 2, 9, steps, sums.at);
    for (let j = 0; j < steps; j++) {
      let sum = 0;
      for (let b = 2; b < 9; b++) sum += values[b * steps + path[b] + j];
      expect(sums.view[j]).toBeCloseTo(sum, 12);
    }
  });

  it('gather columns in groups, once and as running sums', () => {
    const [count, columns, size] = [9, 7, 3];
    const values = drawn(count * columns);
    const kernels = createKernels();
    const rows = kernels.floats(values.length);
    rows.view.set(values);
    const [out, sums] = [kernels.doubles(3), kernels.doubles(3 * (count + 1))];
    kernels.loops.gathered(rows.at, count, columns, size, 5, out.at);
    kernels.loops.running(rows.at, count, columns, size, sums.at);
    for (let g = 0; g < 3; g++) {
      let sum = 0;
      for (let r = 0; r < count; r++) {
        for (let c = g * size; c < Math.min(columns, (g + 1) * size); c++) sum += values[r * columns + c];
        expect(sums.view[3 * (r + 1) + g]).toBeCloseTo(sum / size, 9);
      }
      expect(out.view[g]).toBeCloseTo(sum / 5, 9);
    }
  });

  it('measure how a feature changes at each row, less surely near the ends', () => {
    const [count, columns, used, span] = [20, 5, 3, 4];
    const rows = doubles(count * columns);
    const kernels = createKernels();
    const [sums, out] = [kernels.doubles((count + 1) * columns), kernels.doubles(count)];
    kernels.loops.summed(kernels.doubles(rows).at, count, columns, columns, sums.at);
    kernels.loops.departed(sums.at, count, columns, used, span, out.at);
    for (let r = 1; r < count; r++) {
      const k = Math.min(span, r, count - r);
      let d = 0;
      for (let c = 0; c < used; c++) {
        let off = 0;
        for (let i = 0; i < k; i++) off += (rows[(r + i) * columns + c] - rows[(r - 1 - i) * columns + c]) / k;
        d += off * off;
      }
      expect(out.view[r]).toBeCloseTo((d * k) / span / used, 9);
    }
  });

  it('hold rows against those so many before', () => {
    const [count, stride, width, lag] = [12, 6, 4, 5];
    const rows = doubles(count * stride);
    const kernels = createKernels();
    const [values, far, near] = [kernels.doubles(rows), kernels.doubles(count), kernels.doubles(count)];
    kernels.loops.distant(values.at, count, stride, width, lag, far.at);
    kernels.loops.alike(values.at, count, stride, lag, near.at);
    for (let r = 0; r < count; r++) {
      const row = (b: number, of: number) => Array.from(rows.subarray(b * stride, b * stride + of));
      const earlier = r - lag;
      const distance = earlier < 0 ? 0 : Math.hypot(...row(r, width).map((v, i) => v - row(earlier, width)[i]));
      const product = earlier < 0 ? 0 : row(r, stride).reduce((s, v, i) => s + v * row(earlier, stride)[i], 0);
      expect(far.view[r]).toBeCloseTo(distance, 12);
      expect(near.view[r]).toBeCloseTo(product, 12);
    }
  });

  it('bring columns to one measure and rows to one length', () => {
    const [count, width] = [50, 4];
    const kernels = createKernels();
    const rows = kernels.doubles(doubles(count * width).map((v, i) => (i % width) * v + 3));
    const before = rows.view.slice();
    kernels.loops.standardised(rows.at, count, width, kernels.doubles(2 * width).at);
    const columns = Array.from({ length: width }, (_, c) => before.filter((_, i) => i % width === c));
    const scales = columns.map((column) => {
      const mean = column.reduce((a, b) => a + b, 0) / count;
      return { mean, deviation: Math.sqrt(column.reduce((s, v) => s + (v - mean) ** 2, 0) / count + 1e-6) };
    });
    for (let r = 0; r < count; r++) {
      const row = scales.map(({ mean, deviation }, c) => (before[r * width + c] - mean) / deviation);
      row.forEach((v, c) => expect(rows.view[r * width + c]).toBeCloseTo(v / Math.hypot(...row), 9));
    }
  });

  it('measure change around times, by places of the beat and by fours of beats', () => {
    const [rows, columns, used, span] = [400, 4, 2, 0.31];
    const values = doubles(rows * columns);
    const kernels = createKernels();
    const sums = kernels.doubles((rows + 1) * columns);
    kernels.loops.summed(kernels.doubles(values).at, rows, columns, columns, sums.at);
    // Some lie outside, some too near an end.
    const times = Float64Array.from({ length: 64 }, (_, i) => -0.2 + 0.07 * i);
    const few = kernels.doubles(8);
    kernels.loops.changing(sums.at, rows, columns, used, RATE, START, kernels.doubles(times).at, 64, span, few.at, few.at + 32); // prettier-ignore
    const expected = new Float64Array(8);
    times.forEach((time, i) => {
      const x = Math.round((time - START) * RATE);
      const k = Math.round(span * RATE);
      const [from, to] = [Math.max(0, x - k), Math.min(rows, x + k)];
      if (x - from < k / 2 || to - x < k / 2) return;
      const mean = (a: number, b: number, c: number) => {
        let sum = 0;
        for (let r = a; r < b; r++) sum += values[r * columns + c];
        return sum / (b - a);
      };
      const change = (mean(x, to, 0) - mean(from, x, 0)) ** 2 + (mean(x, to, 1) - mean(from, x, 1)) ** 2;
      expected[i % 4] += change ** 2;
      if (i % 4 === 0) expected[4 + ((i / 4) % 4)] += change ** 2;
    });
    expect(expected.every((v) => v > 0)).toBe(true);
    few.view.forEach((v, i) => expect(v).toBeCloseTo(expected[i], 12));
  });

  it('bring a curve to mean 1 and smooth it by a triangle', () => {
    for (const n of [1, 4, 5, 30]) {
      const curve = drawn(n);
      const kernels = createKernels();
      const [level, smooth] = [kernels.floats(n), kernels.floats(n)];
      level.view.set(curve);
      smooth.view.set(curve);
      kernels.loops.levelled(level.at, n);
      kernels.loops.smoothed(smooth.at, n);
      const mean = curve.reduce((a, b) => a + b, 0) / n;
      for (let i = 0; i < n; i++) {
        expect(level.view[i]).toBeCloseTo(curve[i] / mean, 5);
        const inside = i >= 2 && i + 2 < n;
        const sum = [1, 2, 3, 2, 1].reduce((s, w, k) => s + w * curve[i + k - 2], 0) / 9;
        expect(smooth.view[i]).toBeCloseTo(inside ? sum : 0, 6);
      }
    }
    const kernels = createKernels();
    const nothing = kernels.floats(5);
    kernels.loops.levelled(nothing.at, 5);
    expect(Array.from(nothing.view)).toEqual([0, 0, 0, 0, 0]);
  });
});
