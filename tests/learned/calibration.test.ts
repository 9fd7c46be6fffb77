import { describe, expect, it } from 'vitest';
import { calibrated, fitCalibration, SUREST } from '../../src/learned/index.js';

/** Even steps in place of chance: of `count` answers at each confidence, the share `truth(confidence)` is right. */
function answers(truth: (confidence: number) => number, count = 200) {
  return [0.3, 0.5, 0.6, 0.7, 0.8, 0.9, 0.97].flatMap((confidence) =>
    Array.from({ length: count }, (_, i) => ({ confidence, right: i < Math.round(truth(confidence) * count) })),
  );
}

describe('calibration', () => {
  it('leaves calibrated confidences as they are', () => {
    const line = fitCalibration(answers((c) => c));
    for (const c of [0.3, 0.6, 0.9]) expect(calibrated(c, line)).toBeCloseTo(c, 2);
  });

  it('takes back what is too sure, and raises what is too shy', () => {
    const tooSure = fitCalibration(answers((c) => calibrated(c, { slope: 0.5, offset: -0.2 })));
    expect(tooSure.slope).toBeCloseTo(0.5, 1);
    expect(tooSure.offset).toBeCloseTo(-0.2, 1);
    const tooShy = fitCalibration(answers((c) => calibrated(c, { slope: 1.5, offset: 0.5 })));
    expect(calibrated(0.8, tooShy)).toBeGreaterThan(0.9);
  });

  it('hardly moves for a handful of answers', () => {
    const line = fitCalibration([{ confidence: 0.7, right: true }, { confidence: 0.8, right: true }]); // prettier-ignore
    expect(Math.abs(calibrated(0.7, line) - 0.7)).toBeLessThan(0.1);
  });

  it('keeps the order and never claims to be certain', () => {
    const line = { slope: 3, offset: 1 };
    const steps = Array.from({ length: 101 }, (_, i) => calibrated(i / 100, line));
    expect(steps.every((p, i) => i === 0 || p >= steps[i - 1])).toBe(true);
    expect(steps[100]).toBe(SUREST);
    expect(steps[0]).toBeCloseTo(1 - SUREST, 12);
  });
});
