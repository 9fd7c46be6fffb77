import { describe, expect, it } from 'vitest';
import { magnitudesByChirp } from '../../src/rhythm/chirp.js';
import { addLikeness, magnitudeAt, magnitudesBeside, risesOf, STATE, turnedSums } from '../../src/rhythm/loops.js';
import { randomNumbers } from '../../src/units/index.js';

const chance = randomNumbers(7);
const drawn = (n: number) => Float32Array.from({ length: n }, () => chance());

// Each compiled loop against the sum it stands for, longer than its memory where that can happen.
describe('the loops of the grid', () => {
  it.each([150_001, 70_000, 50, 7])('add up blocks of a curve under two turns, blocks of %i', (blockRows) => {
    const curve = drawn(150_001);
    const turns = [0.011, -0.4] as const;
    const blocks = Math.ceil(curve.length / blockRows);
    const angleOf = (b: number, lane: number) => 0.3 - 1.5 * lane + 0.1 * (b % 60);
    const states = new Float64Array(blocks * STATE.length);
    for (let b = 0; b < blocks; b++) {
      for (const lane of [0, 1]) {
        states[b * STATE.length + STATE.cos + lane] = Math.cos(angleOf(b, lane));
        states[b * STATE.length + STATE.sin + lane] = Math.sin(angleOf(b, lane));
      }
    }
    turnedSums(curve, blockRows, turns, states);
    for (let b = 0; b < blocks; b += Math.max(1, blocks >> 3)) {
      for (const lane of [0, 1]) {
        let [re, im] = [0, 0];
        curve.subarray(b * blockRows, (b + 1) * blockRows).forEach((x, i) => {
          re += x * Math.cos(angleOf(b, lane) + i * turns[lane]);
          im += x * Math.sin(angleOf(b, lane) + i * turns[lane]);
        });
        expect(states[b * STATE.length + STATE.re + lane]).toBeCloseTo(re, 5);
        expect(states[b * STATE.length + STATE.im + lane]).toBeCloseTo(im, 5);
      }
    }
  });

  it('turn blocks forwards and backwards, more of them than fit at once', () => {
    for (const n of [1, 33, 30_000]) {
      const [re, im] = [0, 1].map(() => Float64Array.from(drawn(n), (v) => v - 0.5));
      const steps = 4;
      const out = new Float64Array(2 * (steps + 1));
      magnitudesBeside({ re, im }, 0.7, -0.013, steps, out);
      for (let i = 0; i <= steps; i++) {
        [1, -1].forEach((sign, side) => {
          let [x, y] = [0, 0];
          for (let b = 0; b < n; b++) {
            const a = sign * i * (0.7 - 0.013 * b);
            x += re[b] * Math.cos(a) - im[b] * Math.sin(a);
            y += re[b] * Math.sin(a) + im[b] * Math.cos(a);
          }
          expect(out[i + side * (steps + 1)]).toBeCloseTo(Math.hypot(x, y), 6);
        });
      }
    }
  });

  it('turn blocks by a chirp as one by one', () => {
    for (const [n, steps] of [
      [1, 3],
      [700, 5],
      [1500, 400],
    ]) {
      const row = { re: Float64Array.from(drawn(n), (v) => v - 0.5), im: Float64Array.from(drawn(n), (v) => v - 0.5) };
      const [plain, quick] = [0, 1].map(() => new Float64Array(2 * (steps + 1)));
      magnitudesBeside(row, 0.7, 0.0013, steps, plain);
      magnitudesByChirp(row, 0.0013, steps, quick);
      quick.forEach((v, i) => expect(v).toBeCloseTo(plain[i], 9));
      expect(magnitudeAt(row, 0.7, 0.0013)).toBeCloseTo(plain[1], 9);
    }
  });

  it('find the rises of every band, row for row', () => {
    const columns = 11;
    const rows = 13_000;
    const logs = drawn(rows * columns);
    const ranges = [
      { first: 0, last: 4 },
      { first: 4, last: 11 },
    ];
    const found = risesOf(
      { rows, columns, read: (from, to) => logs.subarray(from * columns, to * columns) },
      ranges,
      2,
    );
    ranges.forEach(({ first, last }, k) => {
      for (let r = 0; r < rows; r += 7) {
        let sum = 0;
        for (let c = first; c < last && r >= 2; c++) {
          const before = (r - 2) * columns;
          const near = [c - 1, c, c + 1].filter((n) => n >= first && n < last).map((n) => logs[before + n]);
          sum += Math.max(0, logs[r * columns + c] - Math.max(...near));
        }
        expect(found[k][r]).toBe(Math.fround(sum));
      }
    });
  });

  it('give nothing for less than the rise', () => {
    expect(Array.from(risesOf({ rows: 2, columns: 3, read: () => drawn(6) }, [{ first: 0, last: 3 }], 2)[0])).toEqual([
      0, 0,
    ]);
  });

  it('compare beats with a template at each place, more of them than fit at once', () => {
    const steps = 24;
    const beats = 2000;
    const values = drawn((beats + 1) * steps);
    const template = Float64Array.from(drawn(steps), (v) => v - 0.5);
    const out = new Float64Array(beats * steps).fill(1);
    addLikeness(values, template, steps, 0.06, out);
    for (let i = 0; i < out.length; i += 101) {
      const sum = template.reduce((s, t, j) => s + t * values[i + j], 0);
      expect(out[i]).toBeCloseTo(1 + 0.06 * sum, 12);
    }
  });
});
