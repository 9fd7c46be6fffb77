import { describe, expect, it } from 'vitest';
import {
  DOWNBEAT_WEIGHTS,
  LEVEL_WEIGHTS,
  PHASE_WEIGHTS,
  fitConditionalLogit,
  logitScore,
  softmax,
} from '../../src/learned/index.js';
import { FRONT_END_ID } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';

describe('the conditional logit', () => {
  it('makes shares that sum to 1 and survive huge scores', () => {
    expect(softmax([0, 0])).toEqual([0.5, 0.5]);
    const shares = softmax([1000, 999, -1000]);
    expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    // derived: 1 / (1 + e^-1)
    expect(shares[0]).toBeCloseTo(0.731_058_6, 6);
  });

  it('learns which cue decides and leaves the others alone', () => {
    const random = randomNumbers(3);
    const choices = Array.from({ length: 200 }, () => {
      const candidates = Array.from({ length: 5 }, () => [random(), random(), random()]);
      const right = candidates.map((c) => c[1]).indexOf(Math.max(...candidates.map((c) => c[1])));
      return { cues: candidates, right: candidates.map((_, i) => i === right) };
    });
    const fit = fitConditionalLogit(choices, { l2: 0.01 });
    const weights = fit.weights.map(Math.abs);
    expect(weights[1]).toBeGreaterThan(5 * Math.max(weights[0], weights[2]));
  });

  it('refuses cues that do not fit the weights', () => {
    expect(() => logitScore(PHASE_WEIGHTS, [1, 2, 3])).toThrow(/3 cues/);
  });

  it('ships weights that name their front end and where they come from', () => {
    for (const weights of [LEVEL_WEIGHTS, PHASE_WEIGHTS, DOWNBEAT_WEIGHTS]) {
      expect(weights.frontEndId).toBe(FRONT_END_ID);
      expect(weights.weights.length).toBe(weights.cues.length);
      expect(weights.scale.every((s) => s > 0)).toBe(true);
      expect(weights.origin.length).toBeGreaterThan(20);
    }
  });
});
