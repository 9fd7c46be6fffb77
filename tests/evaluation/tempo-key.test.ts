import { describe, expect, it } from 'vitest';
import { keyScore, tempoScore, type NamedKey } from '../../src/evaluation/index.js';

describe('tempo accuracy', () => {
  it('1 wants the annotated tempo within 4 %, 2 forgives double, triple, half and third', () => {
    // Gouyon et al., IEEE TASLP 2006
    expect(tempoScore(100, 103.9)).toMatchObject({ accuracy1: true, accuracy2: true });
    expect(tempoScore(100, 104.1)).toMatchObject({ accuracy1: false, accuracy2: false, error: null });
    for (const level of [2, 3, 1 / 2, 1 / 3])
      expect(tempoScore(120, 120 * level * 1.03)).toMatchObject({ accuracy1: false, accuracy2: true });
    expect(tempoScore(120, 160).accuracy2).toBe(false);
  });

  it('gives the relative error at the level that was found', () => {
    expect(tempoScore(174, 87).error).toBeCloseTo(0, 12);
    expect(tempoScore(128, 128.0128).error).toBeCloseTo(1e-4, 9);
  });
});

describe('key score', () => {
  // Weights: MIREX "Audio Key Detection"; mir_eval key (read), which credits only the ascending fifth.
  const key = (name: string): NamedKey => ({
    tonic: name.split(' ')[0] as NamedKey['tonic'],
    mode: name.split(' ')[1] as NamedKey['mode'],
  });
  it.each([
    ['C major', 'C major', 1],
    ['C major', 'G major', 0.5],
    ['A minor', 'E minor', 0.5],
    ['C major', 'A minor', 0.3],
    ['A minor', 'C major', 0.3],
    ['F# minor', 'A major', 0.3],
    ['C major', 'C minor', 0.2],
    ['C major', 'D major', 0],
    ['C major', 'E minor', 0],
    ['C major', 'G minor', 0],
  ])('%s heard as %s scores %f', (reference, estimate, score) => {
    expect(keyScore(key(reference), key(estimate))).toBe(score);
  });

  it('credits the descending fifth only when asked for both', () => {
    expect(keyScore(key('C major'), key('F major'))).toBe(0.5);
    expect(keyScore(key('C major'), key('F major'), 'ascending')).toBe(0);
  });

  it('is 0 for no answer', () => expect(keyScore(key('C major'), null)).toBe(0));
});
