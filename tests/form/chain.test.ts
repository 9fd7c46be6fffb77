import { describe, expect, it } from 'vitest';
import { readChain, type Chain } from '../../src/form/chain.js';

/** Every course through the chain and its score. */
function courses({ own, step }: Chain): { path: number[]; score: number }[] {
  return own.reduce<{ path: number[]; score: number }[]>(
    (before, scores, i) =>
      before.flatMap(({ path, score }) =>
        scores.map((s, k) => ({ path: [...path, k], score: score + s + (i > 0 ? step[i][path[i - 1]][k] : 0) })),
      ),
    [{ path: [], score: 0 }],
  );
}

describe('a chain of four places and three states', () => {
  const value = (i: number, a: number, b: number) => Math.sin(7 * i + 3 * a + 5 * b * b);
  const chain: Chain = {
    own: [0, 1, 2, 3].map((i) => [0, 1, 2].map((k) => 2 * value(i, k, 1))),
    step: [0, 1, 2, 3].map((i) => [0, 1, 2].map((a) => [0, 1, 2].map((b) => 2 * value(i, a, b)))),
  };
  const all = courses(chain);
  const total = all.reduce((s, c) => s + Math.exp(c.score), 0);
  const reading = readChain(chain);

  it('takes the best of all 81 courses', () => {
    expect(reading.path).toEqual(all.reduce((a, b) => (b.score > a.score ? b : a)).path);
    expect(reading.logTotal).toBeCloseTo(Math.log(total), 10);
  });

  it('gives states and steps the shares that summing every course gives', () => {
    const share = (test: (path: readonly number[]) => boolean) =>
      all.reduce((s, c) => s + (test(c.path) ? Math.exp(c.score) : 0), 0) / total;
    for (let i = 0; i < 4; i++)
      for (let k = 0; k < 3; k++) {
        expect(reading.posterior[i][k]).toBeCloseTo(
          share((p) => p[i] === k),
          10,
        );
        for (let a = 0; a < 3 && i > 0; a++)
          expect(reading.pairs[i][a][k]).toBeCloseTo(
            share((p) => p[i - 1] === a && p[i] === k),
            10,
          );
      }
  });
});
