import { expect, it } from 'vitest';
import { createReservoir, EXCERPT } from '../../src/tonality/reservoir.js';

/** The excerpts that are kept of so many, each of one value of its own. */
function kept(excerpts: number, expected: number): Float32Array[] {
  const reservoir = createReservoir(expected);
  const excerpt = new Float32Array(EXCERPT);
  for (let e = 0; e < excerpts; e++) {
    excerpt.fill(0.1 + e / 1000);
    reservoir.push(excerpt, excerpt);
  }
  return reservoir.finish();
}

it.each([1, 127, 128, 255, 256, 300, 600])(
  'keeps the same of %i excerpts, whether their number is known or not',
  (n) => {
    const plain = kept(n, 0);
    expect(plain.length).toBeLessThan(128);
    expect(kept(n, n * EXCERPT)).toEqual(plain);
    expect(kept(n, n * EXCERPT + EXCERPT / 2)).toEqual(plain);
  },
);
