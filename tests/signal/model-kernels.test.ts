import { describe, expect, it } from 'vitest';
import { logOdds, networkOdds, oddsOfRows, treeOdds } from '../../src/learned/index.js';
import { createKernels } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';

const chance = randomNumbers(31);
const drawn = (n: number) => Array.from({ length: n }, () => 4 * chance() - 2);
const COLUMNS = 9;
const ROWS = 40;
const cues = { values: Float32Array.from(drawn(ROWS * COLUMNS)), columns: COLUMNS };
const row = (odds: (values: Float32Array, offset: number) => number) =>
  Array.from({ length: ROWS }, (_, r) => odds(cues.values, r * COLUMNS));

// Each compiled model against its own plain form, row by row.
describe('the compiled models', () => {
  it.each([1, 2, 3, 4])('judge rows by trees %i deep', (depth) => {
    const count = 13;
    const nodes = count * (2 ** depth - 1);
    const trees = {
      base: -0.4,
      depth,
      cues: Array.from({ length: nodes }, () => Math.floor(chance() * COLUMNS)),
      limits: drawn(nodes),
      leaves: drawn(count * 2 ** depth),
    };
    expect([...oddsOfRows(trees, cues)]).toEqual(row((values, at) => treeOdds(trees, values, at)));
  });

  it('judge rows by a regression and by a network, of fewer cues than a row has', () => {
    const [used, units] = [7, 5];
    const logistic = { mean: drawn(used), scale: drawn(used).map((v) => Math.abs(v) / 4 + 0.01), weights: drawn(used), bias: 0.3 }; // prettier-ignore
    const network = { ...logistic, hidden: drawn(units * used), thresholds: drawn(units), out: drawn(units) };
    expect([...oddsOfRows(logistic, cues)]).toEqual(row((values, at) => logOdds(logistic, values, at)));
    expect([...oddsOfRows(network, cues)]).toEqual(row((values, at) => networkOdds(network, values, at)));
  });
});

describe('the compiled course of two states', () => {
  const COUNT = 9;
  const evidence = drawn(COUNT);
  const moves = drawn(4 * COUNT);
  const begin = [0.2, -0.5];
  const all = Array.from({ length: 2 ** COUNT }, (_, n) => Array.from({ length: COUNT }, (_, b) => (n >> b) & 1));
  const scoreOf = (path: readonly number[]) =>
    path.reduce((sum, s, b) => sum + s * evidence[b] + (b === 0 ? begin[s] : moves[4 * b + 2 * path[b - 1] + s]), 0);

  it('is the likeliest of all paths, and its presence their share', () => {
    const kernels = createKernels();
    const [e, m, first] = [evidence, moves, begin].map((v) => kernels.doubles(v).at);
    const [forward, backward] = [0, 1].map(() => kernels.doubles(2 * COUNT).at);
    const [presence, on] = [kernels.doubles(COUNT), kernels.bytes(COUNT)];
    kernels.loops.courseOf(e, COUNT, m, first, forward, backward, presence.at, on.at);
    const best = all.reduce((a, b) => (scoreOf(b) > scoreOf(a) ? b : a));
    expect([...on.view]).toEqual(best);
    const total = all.reduce((sum, path) => sum + Math.exp(scoreOf(path)), 0);
    for (let b = 0; b < COUNT; b++) {
      const inside = all.reduce((sum, path) => sum + path[b] * Math.exp(scoreOf(path)), 0);
      expect(presence.view[b]).toBeCloseTo(inside / total, 12);
    }
  });

  it('is nothing where there is nothing', () => {
    const kernels = createKernels();
    const nothing = kernels.doubles(8).at;
    kernels.loops.courseOf(nothing, 0, nothing, nothing, nothing, nothing, nothing, nothing);
    expect([...kernels.doubles(8).view]).toEqual(new Array(8).fill(0));
  });
});
