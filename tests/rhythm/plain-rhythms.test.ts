import { describe, expect, it } from 'vitest';
import { findGrid } from '../../src/rhythm/index.js';
import { OTHER_METRES, PATTERNS, type Pattern } from '../corpus/plain-rhythms/patterns.js';
import { playPattern } from '../corpus/plain-rhythms/play.js';
import { fMeasure, hear } from './drums.js';

const named = (patterns: readonly Pattern[], name: string) => patterns.find((p) => p.name === name)!;

/** Seeds that no weight was fitted on: training takes those from 10 000 on. */
const gridOf = (pattern: Pattern, seed: number) => {
  const rhythm = playPattern(pattern, seed);
  return { rhythm, grid: findGrid(hear(rhythm.samples)) };
};

describe('the metre of plain rhythms', () => {
  it.each([
    ['kick on every beat', 5200],
    ['kick and off-beat hat', 5001],
    ['kick and off-beat hat', 5101],
    ['kick and off-beat hat', 5201],
    ['kick, clap, off-beat hat', 5002],
  ])('is four where nothing tells another: %s, seed %i', (name, seed) => {
    expect(gridOf(named(PATTERNS, name), seed).grid.metre.beatsPerBar).toBe(4);
  });

  // A kick on every third eighth can as well be counted in two: that waltz is left out.
  it.each(OTHER_METRES.filter(({ name }) => name !== 'waltz, busy').map((pattern) => [pattern.name, pattern] as const))(
    'is heard where it is clear: %s',
    (_, pattern) => {
      expect(gridOf(pattern, 5301).grid.metre.beatsPerBar).toBe(pattern.beatsPerBar);
    },
  );
});

describe('the tempo of plain rhythms', () => {
  it.each([
    ['kick on every beat', 5000],
    ['kick on every beat', 5100],
    ['kick and rolling bass', 5105],
    ['metronome', 5020],
    ['fast breaks', 5212],
  ])('is that of the beats, not half of it: %s, seed %i', (name, seed) => {
    const { rhythm, grid } = gridOf(named(PATTERNS, name), seed);
    expect(grid.tempo.bpm).toBeCloseTo(rhythm.bpm, 1);
    expect(fMeasure(rhythm.beats, grid.beats)).toBeGreaterThan(0.95);
  });
});

describe('a count at half the tempo', () => {
  it.each([5000, 5001, 5002])('of fast breaks keeps the ones on its beats: seed %i', (seed) => {
    const rhythm = playPattern(named(PATTERNS, 'fast breaks'), seed);
    const grid = findGrid(hear(rhythm.samples), { tempo: rhythm.bpm / 2 });
    expect(grid.tempo.bpm).toBeCloseTo(rhythm.bpm / 2, 1);
    const met = rhythm.downbeats.filter((one) => grid.beats.some((beat) => Math.abs(beat - one) < 0.05));
    expect(met.length / rhythm.downbeats.length).toBeGreaterThan(0.95);
  });
});
