import { describe, expect, it } from 'vitest';
import { sectionScores } from '../../src/form/section-scores.js';

describe('section scores that know what phrases do', () => {
  const scores = { phrase: new Float64Array(24), section: new Float64Array(24).fill(2) };
  const functions = ['intro', 'intro', 'main'] as const;
  const starts = [0, 8, 16];

  it('follow the change of function where the functions are plain', () => {
    const plain = { functions, confidence: [0.99, 0.99, 0.99], change: [1, 0.02, 0.98] };
    const { section } = sectionScores(scores, starts, plain);
    expect(section[8]).toBeLessThan(-2);
    expect(section[16]).toBeGreaterThan(2);
    expect(section[5]).toBeLessThan(section[8]);
  });

  it('stay what they were where they are not', () => {
    const vague = { functions, confidence: [0.5, 0.5, 0.5], change: [1, 0.5, 0.5] };
    for (const v of sectionScores(scores, starts, vague).section) expect(v).toBeCloseTo(2, 3);
  });
});
