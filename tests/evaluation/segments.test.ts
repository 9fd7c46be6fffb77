import { describe, expect, it } from 'vitest';
import {
  boundaries,
  boundaryScore,
  generator,
  pairwiseScore,
  spanning,
  type LabelledInterval,
} from '../../src/evaluation/index.js';

/** Sections from their starts and labels; the last number is the end. */
const sections = (times: number[], labels: string): LabelledInterval[] =>
  [...labels].map((label, i) => ({ start: times[i], end: times[i + 1], label }));

describe('boundaries', () => {
  it('are every start and end once; the inner ones leave out what every track has', () => {
    const s = sections([0, 10, 30, 50], 'ABA');
    expect(boundaries(s)).toEqual([0, 10, 30, 50]);
    expect(boundaries(s, true)).toEqual([10, 30]);
  });

  it('score by hits within the window', () => {
    expect(boundaryScore([10, 30], [10.4, 29, 45], 0.5)).toMatchObject({ precision: 1 / 3, recall: 1 / 2, f: 0.4 });
    expect(boundaryScore([10, 30], [10.4, 29, 45], 3).recall).toBe(1);
  });
});

describe('pairwise frame clustering', () => {
  it('does not care what the labels are called', () => {
    expect(pairwiseScore(sections([0, 10, 30, 50], 'ABA'), sections([0, 10, 30, 50], 'XYX')).f).toBe(1);
  });

  it('counts pairs: one label for everything has full recall and the precision of the larger share', () => {
    const score = pairwiseScore(sections([0, 50, 100], 'AB'), sections([0, 100], 'A'));
    expect(score.recall).toBe(1);
    expect(score.precision).toBeCloseTo((2 * ((500 * 499) / 2)) / ((1000 * 999) / 2), 9);
  });

  it('stays between 0 and 1 for any two sectionings', () => {
    const random = generator(4);
    for (let i = 0; i < 40; i++) {
      const draw = () => {
        const times = [0, ...Array.from({ length: 6 }, () => random() * 100).sort((a, b) => a - b), 100];
        return sections(times, Array.from({ length: 7 }, () => 'ABC'[Math.floor(random() * 3)]).join(''));
      };
      const [a, b] = [draw(), draw()];
      const { f, precision, recall } = pairwiseScore(a, b);
      for (const v of [f, precision, recall]) expect(v >= 0 && v <= 1).toBe(true);
      expect(pairwiseScore(b, a).f).toBeCloseTo(f, 12);
    }
  });
});

describe('spanning', () => {
  it('fills what is missing and cuts what is too much', () => {
    expect(spanning(sections([2, 5], 'A'), 8).map((s) => [s.start, s.end])).toEqual([[0, 2], [2, 5], [5, 8]]); // prettier-ignore
    expect(spanning(sections([0, 5, 9], 'AB'), 4).map((s) => [s.start, s.end])).toEqual([[0, 4]]);
    expect(spanning([], 4)).toHaveLength(1);
  });
});
