import { describe, expect, it } from 'vitest';
import { renderArrangement } from '../../src/arranger/index.js';
import { keyScore } from '../../src/evaluation/index.js';
import { createKeyFinder } from '../../src/tonality/index.js';
import type { Mode, PitchClass } from '../../src/units/index.js';
import { small } from '../arranger/small.js';

describe('the key finder on synthesised club music', () => {
  // A self-test: the key is what our own arranger was told to play.
  const cases: { tonic: PitchClass; mode: Mode; progression: number[] }[] = [
    { tonic: 'A', mode: 'minor', progression: [1, 6, 4, 5] },
    { tonic: 'F#', mode: 'minor', progression: [1, 1, 6, 7] },
    { tonic: 'C', mode: 'major', progression: [1, 4, 5, 1] },
    { tonic: 'D#', mode: 'major', progression: [1, 6, 4, 5] },
  ];

  it('names the key, or at worst one that shares its notes', async () => {
    const scores: number[] = [];
    for (const { tonic, mode, progression } of cases) {
      const { left, right } = renderArrangement(
        small([{ function: 'main', phrases: [{ bars: 16, layers: ['kick', 'percussion', 'bass', 'harmony'] }] }], {
          key: { tonic, mode },
          progression,
        }),
      );
      const finder = createKeyFinder();
      finder.push(left.map((l, i) => (l + right[i]) / 2));
      const key = await finder.finish();
      scores.push(keyScore({ tonic, mode }, key.tonic && key.mode ? { tonic: key.tonic, mode: key.mode } : null));
    }
    expect(Math.min(...scores)).toBeGreaterThan(0);
    expect(scores.reduce((a, b) => a + b, 0) / scores.length).toBeGreaterThanOrEqual(0.75);
  });

  it('names none for its drums', async () => {
    const { left } = renderArrangement(
      small([{ function: 'main', phrases: [{ bars: 16, layers: ['kick', 'percussion'] }] }]),
    );
    const finder = createKeyFinder();
    finder.push(left);
    expect((await finder.finish()).tonic).toBeNull();
  });
});
