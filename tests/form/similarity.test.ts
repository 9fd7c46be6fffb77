import { describe, expect, it } from 'vitest';
import { bandedSimilarity, checkerboard, similarityAt } from '../../src/form/index.js';

/** `size` bars of one kind, then `size` of another. */
function twoBlocks(size: number) {
  const values = Float32Array.from({ length: 2 * size }, (_, b) => (b < size ? 0 : 1000));
  const similarity = bandedSimilarity({ values, columns: 1 }, 2 * size, 2 * size - 1);
  // On two blocks the mean distance is met only across them; push the rest of the way to an ideal 0/1 matrix.
  const ideal = similarity.values.map((v) => (v > 0.9 ? 1 : 0));
  return { ...similarity, values: ideal };
}

describe('checkerboard novelty', () => {
  // Derived from Foote, "Automatic audio segmentation using a measure of audio novelty", ICME 2000.
  it.each([1, 2, 4, 8])('is 2·L² at the boundary of an ideal two-block matrix and 0 inside a block, L = %i', (half) => {
    const novelty = checkerboard(twoBlocks(24), half);
    expect(novelty[24]).toBeCloseTo(2 * half * half, 9);
    for (let b = half; b <= 24 - half; b++) expect(novelty[b]).toBeCloseTo(0, 9);
  });

  it('is the same at every bar of a track that never changes', () => {
    const flat = bandedSimilarity({ values: new Float32Array(40).fill(3), columns: 2 }, 20, 10);
    expect(Array.from(checkerboard(flat, 4)).every((v) => v === 0)).toBe(true);
    expect(similarityAt(flat, 3, 9)).toBe(1);
  });
});
