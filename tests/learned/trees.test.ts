import { describe, expect, test } from 'vitest';
import { fitTrees, sigmoid, treeOdds, type Example, type Trees } from '../../src/learned/index.js';

const OPTIONS = { trees: 60, depth: 2, rate: 0.2, l2: 1, examples: 0.7, cues: 1 };

/** Points of a square, evenly spread; which are right is the caller's. */
function square(right: (x: number, y: number) => boolean, weight: (x: number) => number = () => 1): Example[] {
  return Array.from({ length: 1600 }, (_, i) => {
    const [x, y] = [(i % 40) / 40, Math.floor(i / 40) / 40];
    return { cues: [x, y], right: right(x, y), weight: weight(x) };
  });
}

function shareRight(model: Trees, examples: readonly Example[]): number {
  return examples.filter((e) => treeOdds(model, e.cues) > 0 === e.right).length / examples.length;
}

describe('trees', () => {
  test('a tree is read from the root down, right where the value is above the limit', () => {
    const model: Trees = { base: 1, depth: 2, cues: [0, 1, 1], limits: [5, 2, 8], leaves: [10, 20, 30, 40] };
    const odds = (x: number, y: number) => treeOdds(model, [99, x, y], 1);
    expect([odds(5, 2), odds(0, 3), odds(6, 8), odds(6, 9)]).toEqual([11, 21, 31, 41]);
  });

  test('trees add up', () => {
    const model: Trees = { base: 0.5, depth: 1, cues: [0, 1], limits: [0, 0], leaves: [1, 2, 10, 20] };
    expect(treeOdds(model, [1, -1])).toBe(12.5);
  });

  test('learn what no sum of cues tells: right where exactly one of two is high', () => {
    const examples = square((x, y) => x > 0.5 !== y > 0.5);
    expect(shareRight(fitTrees(examples, OPTIONS), examples)).toBeGreaterThan(0.97);
  });

  test('say how likely: a third right at random gives a third', () => {
    const examples = square((x, y) => Math.round(x * 40 + y * 1600) % 3 === 0);
    const model = fitTrees(examples, { ...OPTIONS, trees: 5 });
    for (const e of examples.slice(0, 50)) expect(sigmoid(treeOdds(model, e.cues))).toBeCloseTo(1 / 3, 1);
  });

  test('weights count: what weighs nothing is not learned', () => {
    const examples = square(
      (x, y) => (x < 0.5 ? y > 0.5 : y < 0.5),
      (x) => (x < 0.5 ? 1 : 0),
    );
    const model = fitTrees(examples, { ...OPTIONS, depth: 1 });
    expect(
      shareRight(
        model,
        examples.filter((e) => e.weight > 0),
      ),
    ).toBeGreaterThan(0.97);
  });

  test('the same examples give the same trees', () => {
    const examples = square((x, y) => x * x + y * y < 0.5);
    expect(fitTrees(examples, OPTIONS)).toEqual(fitTrees(examples, OPTIONS));
  });
});
