import { describe, expect, it } from 'vitest';
import { borrowKernels, createKernels } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';
import { withFloats } from './support/with-floats.js';

const chance = randomNumbers(11);
const drawn = (n: number) => Float32Array.from({ length: n }, () => chance());

const BARS = 37;
const COLUMNS = 7;

function squaredDistance(rows: Float32Array, a: number, b: number, columns = COLUMNS): number {
  let sum = 0;
  for (let c = 0; c < columns; c++) sum += (rows[a * columns + c] - rows[b * columns + c]) ** 2;
  return sum;
}

/** Differences up to `reach` apart as they are laid out, and the sum of all. */
function differencesOf(rows: Float32Array, reach: number): { values: Float32Array; sum: number } {
  const values = new Float32Array(BARS * (reach + 1));
  let sum = 0;
  for (let i = 0; i < BARS; i++)
    for (let lag = 1; lag <= reach && i + lag < BARS; lag++) {
      const d = squaredDistance(rows, i, i + lag) / COLUMNS;
      values[i * (reach + 1) + lag] = d;
      sum += d;
    }
  return { values, sum };
}

// Each compiled loop against plain ones.
describe('the compiled loops over bars', () => {
  it.each([1, 2, 9, 10, BARS - 1, 60])('compare bars up to %i apart', (reach) => {
    const rows = drawn(BARS * COLUMNS);
    const { kernels, loops, at } = withFloats(rows);
    const out = kernels.floats(BARS * (reach + 1));
    const expected = differencesOf(rows, reach);
    expect(loops.differences(at, COLUMNS, BARS, reach, out.at)).toBeCloseTo(expected.sum, 9);
    expect(out.view).toEqual(expected.values);
  });

  it('hold what is alike inside two stretches against what is alike across', () => {
    const reach = 15;
    const { values } = differencesOf(drawn(BARS * COLUMNS), reach);
    const { kernels, loops, at } = withFloats(values);
    const out = kernels.doubles(BARS);
    const half = 6;
    loops.contrast(at, BARS, reach, half, out.at);
    const valueOf = (i: number, j: number) => values[Math.min(i, j) * (reach + 1) + Math.abs(i - j)];
    for (let b = 1; b < BARS; b++) {
      const h = Math.min(half, b, BARS - b);
      let sum = 0;
      for (let i = b - h; i < b + h; i++)
        for (let j = b - h; j < b + h; j++) sum += (i < b === j < b ? 1 : -1) * valueOf(i, j);
      expect(out.view[b]).toBeCloseTo(sum * (half / h) ** 2, 9);
    }
    expect(out.view[0]).toBe(0);
  });

  it('turn differences into likeness, and add up shares of it', () => {
    const { kernels, loops, at } = withFloats(drawn(50));
    const before = new Float32Array(loops.memory.buffer, at, 50).slice();
    const shares = kernels.floats(50);
    shares.view.fill(0.5);
    loops.addShares(shares.at, at, 50, 6);
    loops.closeness(at, 50, 1.7);
    const after = new Float32Array(loops.memory.buffer, at, 50);
    before.forEach((v, i) => {
      expect(after[i]).toBe(Math.fround(Math.exp(-v * 1.7)));
      expect(shares.view[i]).toBeCloseTo(0.5 + v / 6, 6);
    });
  });

  it('hold the bar before each against the three before that', () => {
    const reach = 5;
    const { values } = differencesOf(drawn(BARS * COLUMNS), reach);
    const { kernels, loops, at } = withFloats(values);
    const out = kernels.doubles(BARS);
    loops.breaks(at, BARS, reach, out.at);
    const of = (i: number, j: number) => values[i * (reach + 1) + j - i];
    for (let b = 0; b < BARS; b++) {
      const among = () => of(b - 4, b - 3) + of(b - 3, b - 2) + of(b - 4, b - 2);
      const last = () => of(b - 4, b - 1) + of(b - 3, b - 1) + of(b - 2, b - 1);
      expect(out.view[b]).toBeCloseTo(b < 4 ? 0 : (among() - last()) / 3, 12);
    }
  });

  it('measure how far bars a few apart lie from each other, and how near those of two stretches', () => {
    const rows = drawn(BARS * COLUMNS);
    const { kernels, loops, at } = withFloats(rows);
    const [lags, sums] = [[1, 3, 31], kernels.doubles(2)];
    loops.distances(at, COLUMNS, BARS, kernels.integers(lags).at, 3, sums.at);
    let [sum, pairs] = [0, 0];
    for (let b = 0; b < BARS; b++)
      for (const lag of lags.filter((l) => b + l < BARS)) {
        sum += squaredDistance(rows, b, b + lag);
        pairs++;
      }
    expect(sums.view[0]).toBeCloseTo(sum, 9);
    expect(sums.view[1]).toBe(pairs);

    const [some, others, scales] = [
      [3, 8, 5],
      [8, 30],
      [0.5, 2],
    ];
    const distances = Float64Array.from(drawn(12));
    const rooms = [kernels.integers(some).at, kernels.integers(others).at, kernels.doubles(scales).at] as const;
    const got = loops.meanCloseness(kernels.doubles(distances).at, rooms[0], 3, rooms[1], 2, rooms[2], 2);
    let [near, count] = [0, 0];
    some.forEach((a, i) =>
      others.forEach((b, j) => {
        if (a === b) return;
        scales.forEach((scale, k) => (near += Math.exp(-distances[(i * 2 + j) * 2 + k] / scale)));
        count += 2;
      }),
    );
    expect(got).toBeCloseTo(near / count, 12);
    expect(loops.meanCloseness(kernels.doubles(2).at, rooms[1], 1, rooms[1], 1, rooms[2], 2)).toBe(1);
  });

  it('find passages that come back, and where they begin and end', () => {
    const [reach, passage] = [20, 4];
    const { values } = differencesOf(drawn(BARS * COLUMNS), reach);
    const { kernels, loops, at } = withFloats(values);
    const [begins, ends, known, sums] = [BARS, BARS, BARS, BARS + 1].map((n) => kernels.doubles(n));
    loops.returning(at, BARS, reach, passage, sums.at, begins.at, ends.at, known.at);
    const expected = [begins, ends, known].map(() => new Float64Array(BARS));
    for (let lag = passage; lag <= reach; lag++)
      for (let a = passage; a + lag + passage <= BARS; a++) {
        const mean = (from: number) => {
          let sum = 0;
          for (let i = from; i < from + passage; i++) sum += values[i * (reach + 1) + lag];
          return sum / passage;
        };
        const [before, after] = [mean(a - passage), mean(a)];
        [after - before, before - after, after].forEach((value, k) => {
          for (const bar of [a, a + lag]) expected[k][bar] = Math.max(expected[k][bar], value);
        });
      }
    [begins, ends, known].forEach(({ view }, k) => view.forEach((v, b) => expect(v).toBeCloseTo(expected[k][b], 9)));
  });

  it.each([1, 2, 5])('compare some bars with %i others', (many) => {
    const rows = drawn(BARS * COLUMNS);
    const { kernels, loops, at } = withFloats(rows);
    const some = [3, 0, 36];
    const others = [36, 3, 7, 20, 1].slice(0, many);
    const [a, b] = [some, others].map((list) => kernels.integers(list));
    const out = kernels.doubles(some.length * many * 2);
    loops.apart(at, COLUMNS, a.at, some.length, b.at, many, 2, out.at);
    some.forEach((x, i) =>
      others.forEach((y, j) => expect(out.view[2 * (i * many + j)]).toBeCloseTo(squaredDistance(rows, x, y), 12)),
    );
  });

  it('add up columns by their groups', () => {
    const rows = drawn(BARS * COLUMNS);
    const groups = [0, 0, 2, 1, 1, 1, 2];
    const { kernels, loops, at } = withFloats(rows);
    const out = kernels.floats(BARS * 3);
    loops.grouped(at, BARS, COLUMNS, kernels.integers(groups).at, 3, out.at);
    for (let b = 0; b < BARS; b++)
      for (let g = 0; g < 3; g++) {
        const sum = groups.reduce((s, of, c) => s + (of === g ? rows[b * COLUMNS + c] : 0), 0);
        expect(out.view[b * 3 + g]).toBeCloseTo(sum, 5);
      }
  });

  it('add rises to the rows they fall into, from one call to the next', () => {
    const levels = Float64Array.from(drawn(40));
    const places = [-1, 0, 0, 0, 2, -1, 2, 1, 1, -1];
    const kernels = createKernels();
    const [previous, out] = [kernels.doubles(4), kernels.floats(3 * 4)];
    previous.view.fill(Infinity);
    for (const [from, to] of [
      [0, 4],
      [4, 10],
    ]) {
      const part = kernels.doubles(levels.subarray(4 * from, 4 * to));
      kernels.loops.rising(part.at, to - from, 4, kernels.integers(places.slice(from, to)).at, previous.at, out.at);
    }
    const expected = new Float64Array(12);
    for (let r = 1; r < 10; r++)
      for (let c = 0; c < 4; c++)
        if (places[r] >= 0) expected[places[r] * 4 + c] += Math.max(0, levels[4 * r + c] - levels[4 * r - 4 + c]);
    out.view.forEach((v, i) => expect(v).toBeCloseTo(expected[i], 6));
  });

  it('count how pitch classes sound together', () => {
    const frames = 9;
    const rows = drawn(12 * frames);
    rows.fill(0, 12, 24);
    const { kernels, loops, at } = withFloats(rows);
    const tops = kernels.doubles(5 * frames);
    const [mean, loudest, few, likeness] = [12, 12, 12, 2].map((n) => kernels.doubles(n));
    loops.chords(at, frames, tops.at, mean.at, loudest.at, likeness.at, few.at);
    const row = (f: number) => Array.from(rows.subarray(12 * f, 12 * f + 12));
    const means = row(0).map(
      (_, c) =>
        row(0)
          .map((_, f) => row(f)[c] ?? 0)
          .reduce((s, v) => s + v, 0) / frames,
    );
    const counts = new Array<number>(12).fill(0);
    const cosine = (a: readonly number[], b: readonly number[]) => {
      const dot = (x: readonly number[], y: readonly number[]) => x.reduce((s, v, i) => s + v * y[i], 0);
      return dot(a, a) > 0 && dot(b, b) > 0 ? dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b)) : 0;
    };
    let [toMean, toLast] = [0, 0];
    for (let f = 0; f < frames; f++) {
      const sorted = row(f).sort((x, y) => y - x);
      expect(Array.from(tops.view.subarray(5 * f, 5 * f + 5))).toEqual(sorted.slice(0, 5));
      counts[row(f).indexOf(sorted[0])]++;
      toMean += cosine(row(f), means) / frames;
      if (f > 0) toLast += cosine(row(f), row(f - 1)) / (frames - 1);
    }
    means.forEach((v, c) => expect(mean.view[c]).toBeCloseTo(v, 12));
    expect(Array.from(loudest.view)).toEqual(counts);
    expect(likeness.view[0]).toBeCloseTo(toMean, 12);
    expect(likeness.view[1]).toBeCloseTo(toLast, 12);
  });
});

describe('loops that are lent', () => {
  it('begin with zeros again, whoever had them before', () => {
    borrowKernels(4000).floats(1000).view.fill(7);
    expect(
      borrowKernels(4000)
        .floats(1000)
        .view.every((v) => v === 0),
    ).toBe(true);
  });

  it('have the room that is asked for, and no more than that', () => {
    for (const bytes of [100, 5e6, 100]) {
      const kernels = borrowKernels(bytes);
      expect(kernels.floats(bytes / 4).view).toHaveLength(bytes / 4);
    }
    expect(() => borrowKernels(100).floats(1 << 24)).toThrow(RangeError);
  });
});
