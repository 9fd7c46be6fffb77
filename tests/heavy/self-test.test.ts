import { beforeAll, describe, expect, it } from 'vitest';
import { bootstrapMean, hitScore } from '../../src/evaluation/index.js';
import type { FormScores, Verdict } from '../corpus/self-test/judge.js';
import { judge } from '../corpus/self-test/judge.js';
import { total } from '../corpus/self-test/report.js';

/**
 * Six tracks of the self-test (docs/accuracy.md has all of it), three of each band: the floor under which no change may
 * fall. The floors lie below what was measured by about the spread of so small a draw; the goals lie above them.
 */
describe('six drawn tracks of both bands', () => {
  let verdicts: Verdict[];
  beforeAll(() => {
    verdicts = (['first', 'second'] as const).flatMap((set) =>
      [91_001, 91_002, 91_003].map((seed) => judge({ set, seed })),
    );
  });

  const mean = (measure: keyof FormScores, by: keyof Verdict['scores'] = 'barwise') =>
    bootstrapMean(verdicts.map((v) => v.scores[by][measure] ?? 0)).mean;

  it('find phrases and sections, and better than every eight bars or plain novelty would', () => {
    expect(mean('phrase')).toBeGreaterThan(0.8);
    expect(mean('halfBeat')).toBeGreaterThan(0.75);
    for (const by of ['every 8 bars', 'novelty'] as const)
      expect(mean('halfBeat')).toBeGreaterThan(mean('halfBeat', by));
  });

  it('name what sections do for most of the time', () => {
    expect(mean('functions')).toBeGreaterThan(0.6);
  });

  it('hear kick, bass and percussion come and go', () => {
    for (const layer of ['kick', 'bass', 'percussion'] as const)
      expect(hitScore(total(verdicts.map((v) => v.layers[layer]))).f).toBeGreaterThan(0.6);
  });
});
