import { describe, expect, it } from 'vitest';
import { clearOnes } from '../../src/rhythm/clear-ones.js';
import { hearFrontEnd } from '../../src/rhythm/heard.js';
import { regularBeats } from '../../src/rhythm/readings.js';
import { arranged } from '../form/arranged.js';
import { practiceArrangement } from '../form/training/practice.js';

describe('how clear the ones are', () => {
  const { frontEnd, grid } = arranged(practiceArrangement(3));
  const heard = hearFrontEnd(frontEnd);
  const period = 60 / grid.tempo.bpm;
  const at = (first: number, step: number) => regularBeats(step, first, frontEnd.duration);
  const [first] = grid.beats;

  it('tells the beat from what lies half-way between beats, and from another tempo', () => {
    const right = clearOnes(heard, at(first % period, period));
    expect(right).toBeGreaterThan(clearOnes(heard, at((first + period / 2) % period, period)));
    expect(right).toBeGreaterThan(clearOnes(heard, at(first % (period / 2), period / 2)));
    expect(right).toBeGreaterThan(clearOnes(heard, at(first % (0.75 * period), 0.75 * period)));
  });

  it('is nothing where there are no bars to compare', () => {
    expect(clearOnes(heard, [1, 2, 3])).toBe(0);
  });
});
