import { describe, expect, it } from 'vitest';
import { createKernels } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';
import { withFloats } from './support/with-floats.js';

const chance = randomNumbers(23);
const drawn = (n: number) => Float32Array.from({ length: n }, () => chance());
const COLUMNS = 5;
const BARS = 29;

const columnOf = (values: Float32Array, c: number, from: number, to: number) =>
  Array.from({ length: to - from }, (_, i) => values[(from + i) * COLUMNS + c]);
const sorted = (values: readonly number[]) => [...values].sort((a, b) => a - b);
const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;

/** Bars of four steps and now and then five or one. */
const STARTS = Array.from({ length: BARS + 1 }, (_, b) => 4 * b + Math.floor(b / 7) - 3 * Math.floor(b / 11));
const ROWS = STARTS[BARS];

// Each compiled loop against plain ones.
describe('the compiled loops over tables', () => {
  it.each([4, 8])('find what comes, goes and moves between the quartiles of %i bars', (span) => {
    const values = drawn(BARS * COLUMNS).map((v, i) => v + (i > 12 * COLUMNS ? 0.8 : 0) - (i > 20 * COLUMNS ? 1.5 : 0));
    const { kernels, loops, at } = withFloats(values);
    const [low, high, few] = [BARS + span, BARS + span, span].map((n) => kernels.floats(n).at);
    const curves = [0, 1, 2].map(() => kernels.doubles(BARS));
    const [comes, goes, moves] = curves.map((c) => c.at);
    loops.lasting(at, COLUMNS, BARS, span, 0.1, low, high, few, comes, goes, moves);
    const quartile = (c: number, from: number, to: number, q: number) => {
      const window = sorted(columnOf(values, c, Math.max(0, from), Math.min(BARS, to)));
      return window[Math.round(q * (window.length - 1))];
    };
    for (let b = 0; b < BARS; b++) {
      const expected = [0, 0, 0];
      for (let c = 0; c < COLUMNS && b >= 2 && b < BARS - 1; c++) {
        const up = quartile(c, b, b + span, 0.25) - quartile(c, b - span, b, 0.75);
        const down = quartile(c, b - span, b, 0.25) - quartile(c, b, b + span, 0.75);
        expected[0] += up > 0.1 ? 1 / COLUMNS : 0;
        expected[1] += down > 0.1 ? 1 / COLUMNS : 0;
        expected[2] += (Math.max(up, 0) + Math.max(down, 0)) / COLUMNS;
      }
      curves.forEach(({ view }, k) => expect(view[b]).toBeCloseTo(expected[k], 12));
    }
    expect(Math.max(...curves[0].view)).toBeGreaterThan(0.5);
    expect(Math.max(...curves[1].view)).toBeGreaterThan(0.5);
  });

  it('find the columns that change most, by medians', () => {
    const values = drawn(BARS * COLUMNS);
    const { kernels, loops, at } = withFloats(values);
    const out = kernels.doubles(4 * BARS);
    loops.shifts(at, COLUMNS, BARS, 4, 0.2, kernels.floats(4).at, out.at);
    const median = (c: number, from: number, to: number) => {
      const window = sorted(columnOf(values, c, from, to));
      return window[(window.length - 1) >> 1];
    };
    for (let b = 0; b < BARS; b++) {
      const inside = b >= 2 && b < BARS - 1;
      const changes = Array.from({ length: inside ? COLUMNS : 0 }, (_, c) =>
        Math.abs(median(c, b, Math.min(b + 4, BARS)) - median(c, Math.max(b - 4, 0), b)),
      ).sort((x, y) => y - x);
      const expected = [0, 1, 2].map((k) => changes[k] ?? 0).concat(changes.filter((c) => c > 0.2).length);
      expect([0, 1, 2, 3].map((k) => out.view[k * BARS + b])).toEqual(expected);
    }
  });

  it('give quantiles and means of the steps of each bar', () => {
    const table = drawn(ROWS * COLUMNS);
    const { kernels, loops, at } = withFloats(table);
    const [shares, stride] = [[0.1, 0.5, 0.9], 4 * COLUMNS];
    const out = kernels.floats(BARS * stride);
    const starts = kernels.integers(STARTS).at;
    loops.quantiles(at, COLUMNS, starts, BARS, kernels.doubles(shares).at, 3, kernels.floats(8).at, out.at, stride);
    const usual = [1, 2, 0.5, 4, 3];
    const few = kernels.doubles(COLUMNS).at;
    loops.means(at, COLUMNS, starts, BARS, 4, 2, 4, kernels.doubles(usual).at, few, out.at + 12 * COLUMNS, stride);
    for (let b = 0; b < BARS; b++)
      for (let c = 0; c < COLUMNS; c++) {
        const column = columnOf(table, c, STARTS[b], STARTS[b + 1]);
        const inOrder = sorted(column);
        shares.forEach((share, q) =>
          expect(out.view[b * stride + q * COLUMNS + c]).toBe(inOrder[Math.round(share * (inOrder.length - 1))]),
        );
        const late = column.filter((_, i) => i % 4 >= 2);
        const expected = late.length > 0 ? mean(late) / usual[c] : 0;
        expect(out.view[b * stride + 3 * COLUMNS + c]).toBeCloseTo(expected, 6);
      }
  });

  it('average frames over steps, however they come in blocks', () => {
    const frames = 100;
    const values = drawn(frames * COLUMNS);
    // Steps before the first frame, without a frame, over several blocks, and beyond the last frame.
    const edges = [-7, -2, 3, 3, 9, 10, 41, 60, 95, 130, 140];
    const steps = edges.length - 1;
    for (const block of [1, 7, 32, 100]) {
      const kernels = createKernels();
      const [part, out] = [kernels.floats(block * COLUMNS), kernels.floats(steps * COLUMNS)];
      const begins = kernels.integers(edges).at;
      for (let f = 0, step = 0; f < frames; f += block) {
        const count = Math.min(block, frames - f);
        part.view.set(values.subarray(f * COLUMNS, (f + count) * COLUMNS));
        step = kernels.loops.averaged(part.at, COLUMNS, f, count, frames, begins, step, steps, out.at);
      }
      for (let s = 0; s < steps; s++)
        for (let c = 0; c < COLUMNS; c++) {
          const to = Math.max(edges[s + 1], edges[s] + 1);
          let sum = 0;
          for (let f = Math.max(edges[s], 0); f < Math.min(to, frames); f++) sum += values[f * COLUMNS + c];
          expect(out.view[s * COLUMNS + c], `step ${s}, blocks of ${block}`).toBeCloseTo(sum / (to - edges[s]), 5);
        }
    }
  });

  it('read groups of columns at even places of each bar', () => {
    const table = drawn(ROWS * COLUMNS);
    const { kernels, loops, at } = withFloats(table);
    const [places, groups] = [6, [0, 2, 2, 3]];
    const out = kernels.floats(BARS * places * 2);
    loops.patterns(at, COLUMNS, kernels.integers(STARTS).at, BARS, places, kernels.integers(groups).at, 2, out.at);
    for (let b = 0; b < BARS; b++)
      for (let s = 0; s < places; s++) {
        const length = STARTS[b + 1] - STARTS[b];
        const row = STARTS[b] + Math.min(Math.floor(((s + 0.5) * length) / places), length - 1);
        const values = table.subarray(row * COLUMNS, (row + 1) * COLUMNS);
        expect(out.view[(b * places + s) * 2]).toBeCloseTo((values[0] + values[1]) / 2, 6);
        expect(out.view[(b * places + s) * 2 + 1]).toBeCloseTo((values[2] + values[3] + values[4]) / 3, 6);
      }
  });

  it('take logarithms as the engine does', () => {
    const powers = Float32Array.from({ length: 5000 }, () => 10 ** (12 * chance() - 9));
    const { kernels, loops, at } = withFloats(powers);
    const out = kernels.floats(powers.length);
    loops.levels(at, powers.length, 3, 1e-4, 10, out.at);
    powers.forEach((p, i) => expect(out.view[i]).toBeCloseTo(10 * Math.log10(3 * p + 1e-4), 5));
    const references = [0.5, 2, 8, 1, 3];
    const fine = kernels.doubles(powers.length);
    loops.compressed(at, powers.length / COLUMNS, COLUMNS, 1000, kernels.doubles(references).at, fine.at);
    powers.forEach((p, i) =>
      expect(fine.view[i]).toBeCloseTo(Math.log10(1 + (1000 * p) / references[i % COLUMNS]), 14),
    );
  });

  it('find the step that each frame lies in', () => {
    const [edges, rate] = [[0.05, 0.1, 0.31, 0.32, 0.5], 100];
    const kernels = createKernels();
    const places = kernels.integers(60);
    const begins = kernels.doubles(edges).at;
    const on = kernels.loops.placed(20, 2.5, begins, 4, rate, 0, places.at);
    kernels.loops.placed(40, 22.5, begins, 4, rate, on, places.at + 80);
    places.view.forEach((place, i) => {
      const step = edges.findLastIndex((edge) => i + 2.5 >= edge * rate);
      expect(place).toBe(step === edges.length - 1 ? -1 : step);
    });
  });

  it('tell which pitch classes are held in a bar, and how many sound together', () => {
    const frames = 23;
    const rows = drawn(12 * frames);
    const { kernels, loops, at } = withFloats(rows);
    const tops = Float64Array.from({ length: 5 * frames }, (_, i) => [...rows.subarray(12 * Math.floor(i / 5)).slice(0, 12)].sort((a, b) => b - a)[i % 5]); // prettier-ignore
    const [held, usual, together] = [12, 12, 4].map((n) => kernels.doubles(n));
    const few = kernels.floats(frames).at;
    loops.heldClasses(at, frames, 0.2, 0.5, kernels.doubles(tops).at, 0.01, few, held.at, usual.at, together.at);
    for (let c = 0; c < 12; c++) {
      const course = sorted(Array.from({ length: frames }, (_, r) => rows[12 * r + c]));
      expect([held.view[c], usual.view[c]]).toEqual([course[Math.floor(0.2 * 22)], course[Math.floor(0.5 * 22)]]);
    }
    for (let k = 1; k < 5; k++) {
      const levels = Array.from({ length: frames }, (_, r) => 10 * Math.log10((tops[5 * r + k] + 0.01) / (tops[5 * r] + 0.01))); // prettier-ignore
      expect(together.view[k - 1]).toBeCloseTo(mean(levels), 12);
    }
  });

  it('lay curves side by side with how far each value stands above its neighbours', () => {
    const curves = Float64Array.from({ length: 3 * BARS }, () => chance());
    const kernels = createKernels();
    const out = kernels.floats(6 * BARS);
    kernels.loops.crests(kernels.doubles(curves).at, 3, BARS, out.at);
    for (let k = 0; k < 3; k++)
      for (let b = 0; b < BARS; b++) {
        const at = (i: number) => curves[k * BARS + Math.max(0, Math.min(BARS - 1, i))];
        expect(out.view[6 * b + k]).toBe(Math.fround(at(b)));
        expect(out.view[6 * b + 3 + k]).toBe(Math.fround(at(b) - Math.max(at(b - 1), at(b + 1))));
      }
  });
});
