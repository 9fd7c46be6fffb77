import { describe, expect, it } from 'vitest';
import { followsPlan, PLAN_CUES, planCues } from '../../src/form/plan.js';
import { sectionScores } from '../../src/form/section-scores.js';
import { PLAN_WEIGHTS } from '../../src/form/weights/index.js';

const functions = ['intro', 'intro', 'main'] as const;
const starts = [0, 8, 16];

describe('section scores that know what phrases do', () => {
  const scores = { phrase: new Float64Array(24), section: new Float64Array(24).fill(2) };
  const does = { functions, confidence: [0.99, 0.99, 0.99], change: [1, 0.02, 0.98] };

  it('follow the change of function where the track has a plan', () => {
    const { section } = sectionScores(scores, starts, does, 1);
    expect(section[8]).toBeLessThan(-2);
    expect(section[16]).toBeGreaterThan(2);
    expect(section[5]).toBeLessThan(section[8]);
  });

  it('stay what they were where it has none', () => {
    expect(sectionScores(scores, starts, does, 0).section).toEqual(scores.section);
  });
});

describe('whether sections follow what phrases do', () => {
  const section = new Float64Array(24).fill(-3);
  section[16] = 3;
  const plain = { functions, confidence: [0.99, 0.98, 0.99], change: [1, 0.02, 0.98] };

  it('is told by how sure functions are and how they agree with the change of sound', () => {
    const cues = planCues(section, starts, plain);
    expect(cues).toHaveLength(PLAN_CUES.length);
    expect(cues[0]).toBeCloseTo(0.987, 3);
    expect(cues[1]).toBe(0.98);
    expect(cues[2]).toBeCloseTo(0.96, 2);
    expect(cues[4]).toBe(6);
  });

  it('is yes where functions are plain and change with the sound, no where they are vague', () => {
    const vague = { functions, confidence: [0.5, 0.5, 0.5], change: [1, 0.5, 0.5] };
    const follows = (does: typeof plain) => followsPlan(planCues(section, starts, does), PLAN_WEIGHTS);
    expect(follows(plain)).toBeGreaterThan(0.9);
    expect(follows(vague)).toBeLessThan(0.1);
  });

  it('has an answer for a track of one phrase', () => {
    const one = { functions: ['main'] as const, confidence: [1], change: [1] };
    expect(planCues(new Float64Array(4), [0], one).every(Number.isFinite)).toBe(true);
  });
});
