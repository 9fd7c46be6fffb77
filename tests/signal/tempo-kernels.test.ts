import FFT from 'fft.js';
import { describe, expect, it } from 'vitest';
import { createKernels } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';

const chance = randomNumbers(5);
const drawn = (n: number) => Float64Array.from({ length: n }, () => 2 * chance() - 1);

// Each compiled loop against plain ones.
describe('the compiled loops around the transforms', () => {
  it('put two curves side by side without their means', () => {
    const kernels = createKernels();
    const [a, b, out] = [kernels.floats(3), kernels.floats(3), kernels.doubles(10)];
    a.view.set([1, 2, 3]);
    b.view.set([5, 7, 9]);
    out.view.fill(8);
    kernels.loops.paired(a.at, b.at, 3, 1, 5, 5, out.at);
    expect([...out.view]).toEqual([0, 0, 1, 2, 2, 4, 0, 0, 0, 0]);
  });

  it('read the salience of two windows of a curve off one transform', () => {
    const [rows, from, step, width, size, highest, count] = [90, -6, 11, 40, 64, 31, 5];
    const octaves = [1, 0.5];
    const curve = Float32Array.from({ length: rows }, () => 1 + chance());
    const taper = drawn(width);
    const places = Float64Array.from({ length: 2 * count }, (_, i) => 2.3 * i + 0.7);
    const kernels = createKernels();
    const samples = kernels.floats(rows);
    samples.view.set(curve);
    const [input, spectrum] = [0, 1].map(() => kernels.doubles(2 * size));
    const magnitudes = kernels.doubles(highest + 1).at;
    const [tapers, at, weights] = [taper, places, octaves].map((v) => kernels.doubles(v).at);
    const out = kernels.floats(2 * count);
    kernels.loops.windows(samples.at, rows, from, step, tapers, width, input.at);
    new FFT(size).transform(spectrum.view, input.view);
    kernels.loops.salience(spectrum.at, size, magnitudes, highest, at, weights, 2, count, out.at);
    for (const part of [0, 1]) {
      const first = from + part * step;
      const magnitude = (k: number) => {
        let [re, im] = [0, 0];
        for (let i = 0; i < width; i++) {
          const value = first + i >= 0 && first + i < rows ? (curve[first + i] - 1) * taper[i] : 0;
          re += value * Math.cos((2 * Math.PI * i * k) / size);
          im -= value * Math.sin((2 * Math.PI * i * k) / size);
        }
        return Math.hypot(re, im);
      };
      const between = (x: number) =>
        magnitude(Math.floor(x)) + (x % 1) * (magnitude(Math.floor(x) + 1) - magnitude(Math.floor(x)));
      const plain = Array.from({ length: count }, (_, b) => between(places[b]) + 0.5 * between(places[count + b]));
      const sum = plain.reduce((s, v) => s + v, 0);
      plain.forEach((v, b) => expect(out.view[part * count + b]).toBeCloseTo((v * count) / sum, 5));
    }
  });

  it('follow the best path in a circle, as trying all paths does', () => {
    const [rows, bins, farthest] = [5, 4, 1];
    const [evidence, move, jump] = [2, 0.3, 1.1];
    const values = Float32Array.from({ length: rows * bins }, () => chance());
    const kernels = createKernels();
    const saliences = kernels.floats(rows * bins);
    saliences.view.set(values);
    const [score, next] = [kernels.doubles(bins), kernels.doubles(bins).at];
    const room = kernels.bytes(2 * rows * bins);
    kernels.loops.circling(saliences.at, rows, bins, evidence, move, farthest, jump, score.at, next, room.at);
    const cost = (d: number) => Math.min(jump, Math.min(d, bins - d) <= farthest ? move * Math.min(d, bins - d) ** 2 : jump); // prettier-ignore
    for (let end = 0; end < bins; end++) {
      let best = -Infinity;
      for (let n = 0; n < bins ** rows; n++) {
        const path = Array.from({ length: rows }, (_, r) => Math.floor(n / bins ** r) % bins);
        if (path[rows - 1] !== end) continue;
        const total = path.reduce((s, b, r) => s + evidence * values[r * bins + b] - (r > 0 ? cost(Math.abs(b - path[r - 1])) : 0), 0); // prettier-ignore
        best = Math.max(best, total);
      }
      expect(score.view[end]).toBeCloseTo(best, 6);
    }
    // The way back has the score that it claims.
    const back = new Int16Array(room.view.buffer, room.at, rows * bins);
    const path: number[] = [];
    for (let r = rows - 1, b = score.view.indexOf(Math.max(...score.view)); r >= 0; r--) {
      path[r] = b;
      b = back[r * bins + b];
    }
    const claimed = path.reduce((s, b, r) => s + evidence * values[r * bins + b] - (r > 0 ? cost(Math.abs(b - path[r - 1])) : 0), 0); // prettier-ignore
    expect(claimed).toBeCloseTo(Math.max(...score.view), 6);
  });

  it('give turns in even steps, and the lengths of sums', () => {
    const kernels = createKernels();
    const [turns, out] = [kernels.doubles(8 * 3), kernels.doubles(2 * 6)];
    kernels.loops.evenTurns(turns.at, 3, 4, 0.3, -0.07);
    for (let k = 0; k < 6; k++) {
      const at = 8 * (k >> 1) + (k & 1);
      const [angle, turn] = [(4 + k) * 0.3, (4 + k) * -0.07];
      const expected = [Math.cos(angle), Math.sin(angle), Math.cos(turn), Math.sin(turn)];
      expect([0, 2, 4, 6].map((i) => turns.view[at + i])).toEqual(expected);
    }
    const sums = drawn(24);
    sums.set([0, 0, 0], 16);
    turns.view.set(sums);
    kernels.loops.lengths(turns.at, 5, 6, out.at);
    for (let k = 0; k < 5; k++) {
      const at = 8 * (k >> 1) + (k & 1);
      expect(out.view[k]).toBeCloseTo(Math.hypot(sums[at], sums[at + 2]), 14);
      expect(out.view[6 + k]).toBeCloseTo(Math.hypot(sums[at + 4], sums[at + 6]), 14);
    }
    expect(out.view[5]).toBe(0);
  });
});
