import { describe, expect, it } from 'vitest';
import { fitLogistic, fitNetwork, logOdds, networkOdds, type Example } from '../../src/learned/index.js';

const OPTIONS = { units: 8, l2: 0.1, noise: 0.2, passes: 60 };

/** Points of a square: right where both cues are above the middle or both below it, which no sum of the two can tell. */
function squares(count: number): Example[] {
  return Array.from({ length: count }, (_, i) => {
    const [a, b] = [((i * 37) % 100) / 50 - 1, ((i * 61 + 13) % 97) / 48 - 1];
    return { cues: [a, b], right: a * b > 0, weight: 1 };
  });
}

const rightOf = (examples: readonly Example[], odds: (cues: ArrayLike<number>) => number) =>
  examples.filter((e) => odds(e.cues) > 0 === e.right).length / examples.length;

describe('a network', () => {
  it('tells what cues mean together, where a logistic regression is no better than chance', () => {
    const examples = squares(2000);
    const net = fitNetwork(examples, OPTIONS);
    const line = fitLogistic(examples, 0.1);
    expect(rightOf(examples, (cues) => networkOdds(net, cues))).toBeGreaterThan(0.93);
    expect(rightOf(examples, (cues) => logOdds(line, cues))).toBeLessThan(0.65);
  });

  it('is the same for the same examples', () => {
    const examples = squares(300);
    expect(fitNetwork(examples, OPTIONS)).toEqual(fitNetwork(examples, OPTIONS));
  });

  it('counts an example as often as its weight says', () => {
    const examples = Array.from({ length: 400 }, (_, i): Example => ({
      cues: [i % 2],
      right: i % 4 < 2,
      weight: i % 4 < 2 ? 3 : 1,
    }));
    const net = fitNetwork(examples, { ...OPTIONS, noise: 0 });
    for (const cue of [0, 1]) expect(networkOdds(net, [cue])).toBeCloseTo(Math.log(3), 0);
  });

  it('works the formula of the methods out by hand, cues cut at four', () => {
    const net = {
      mean: [1, 0],
      scale: [2, 1],
      hidden: [1, -1, 0, 2],
      thresholds: [0.5, -1],
      out: [2, 3],
      weights: [0.1, 0.2],
      bias: -1,
    };
    // z = (3 - 1) / 2 = 1 and 9 cut to 4: units 0.5 + 1 - 4 < 0 and -1 + 8 = 7.
    expect(networkOdds(net, [0, 3, 9], 1)).toBeCloseTo(-1 + 0.1 + 0.8 + 3 * 7, 12);
  });
});
