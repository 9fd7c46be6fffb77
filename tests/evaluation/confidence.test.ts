import { describe, expect, it } from 'vitest';
import {
  answeredFrom,
  bootstrapQuantile,
  brierScore,
  generator,
  reliability,
  riskCoverage,
  riskCoverageArea,
} from '../../src/evaluation/index.js';

const answer = (confidence: number, right: boolean) => ({ confidence, right });

describe('confidence', () => {
  it('has a Brier score of 0 for prophets, ¼ for those who never know, 1 for those who always err', () => {
    // Brier 1950: the mean of squared differences
    expect(brierScore([answer(1, true), answer(0, false)])).toBe(0);
    expect(brierScore([answer(0.5, true), answer(0.5, false)])).toBe(0.25);
    expect(brierScore([answer(1, false)])).toBe(1);
    expect(brierScore([answer(0.9, true), answer(0.8, false)])).toBeCloseTo((0.01 + 0.64) / 2, 12);
    expect(() => brierScore([])).toThrow(RangeError);
  });

  it('trades risk for coverage, the surest answers first and equal ones together', () => {
    const answers = [answer(0.6, false), answer(0.9, true), answer(0.8, true), answer(0.8, false)];
    expect(riskCoverage(answers)).toEqual([
      { coverage: 0.25, risk: 0, confidence: 0.9 },
      { coverage: 0.75, risk: 1 / 3, confidence: 0.8 },
      { coverage: 1, risk: 0.5, confidence: 0.6 },
    ]);
    expect(riskCoverageArea(answers)).toBeCloseTo(0 * 0.25 + (1 / 3) * 0.5 + 0.5 * 0.25, 12);
    expect(answeredFrom(answers, 0.7)).toEqual({ coverage: 0.75, risk: 1 / 3 });
    expect(answeredFrom(answers, 0.95)).toEqual({ coverage: 0, risk: null });
  });

  it('that tells nothing has the share of wrong answers as area; that tells all has less', () => {
    const random = generator(3);
    const rights = Array.from({ length: 4000 }, () => random() < 0.7);
    const blind = rights.map((right) => answer(random(), right));
    const seeing = rights.map((right) => answer(right ? 0.9 : 0.1, right));
    expect(riskCoverageArea(blind)).toBeCloseTo(0.3, 1);
    expect(riskCoverageArea(seeing)).toBeCloseTo(0.3 * 0.3, 1);
  });

  it('is put into bins with what was right in each', () => {
    const table = reliability(
      [answer(0.2, false), answer(0.55, true), answer(0.95, true), answer(1, false)],
      [0, 0.5, 0.9, 1],
    );
    expect(table.map((r) => [r.from, r.count, r.shareRight])).toEqual([[0, 1, 0], [0.5, 1, 1], [0.9, 2, 0.5]]); // prettier-ignore
    expect(table[2].meanConfidence).toBeCloseTo(0.975, 12);
  });
});

describe('the bootstrap of a quantile', () => {
  it('holds the median and the 95th percentile of the values', () => {
    const values = Array.from({ length: 101 }, (_, i) => i);
    expect(bootstrapQuantile(values, 0.5).mean).toBe(50);
    const tail = bootstrapQuantile(values, 0.95);
    expect(tail.mean).toBe(95);
    expect(tail.low).toBeGreaterThan(85);
    expect(tail.high).toBeLessThanOrEqual(100);
  });
});
