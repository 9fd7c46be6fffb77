import { describe, expect, it } from 'vitest';
import {
  beatScore,
  beatTiming,
  cemgil,
  continuity,
  generator,
  informationGain,
  matchEvents,
  metricalVariations,
  pScore,
  steadyTempo,
  trimBeats,
} from '../../src/evaluation/index.js';

const even = (count: number, period = 0.5, start = 0) => Array.from({ length: count }, (_, i) => start + i * period);

/** Beats of a random walk around a period, some left out, some added. */
function unruly(seed: number, count = 60): number[] {
  const random = generator(seed);
  const beats = even(count).map((t) => t + (random() - 0.5) * 0.3);
  return beats.filter(() => random() > 0.2).sort((a, b) => a - b);
}

describe('matching', () => {
  it('finds as many pairs as trying every matching does', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const a = unruly(seed, 8);
      const b = unruly(seed + 1000, 8);
      for (const window of [0.02, 0.1, 0.4])
        expect(matchEvents(a, b, window)).toHaveLength(largestMatching(a, b, window));
    }
  });

  it('takes a time at most once and counts the edge of the window in', () => {
    expect(matchEvents([1], [1.5, 1.25], 0.5)).toHaveLength(1);
    expect(matchEvents([1, 1.0625], [1.03125], 0.07)).toHaveLength(1);
    expect(matchEvents([1], [1.5], 0.5)).toEqual([[0, 0]]);
    expect(matchEvents([], [1], 1)).toEqual([]);
  });
});

describe('beat scores', () => {
  const all = (r: number[], e: number[]): number[] => [
    beatScore(r, e).f,
    pScore(r, e),
    cemgil(r, e).score,
    ...Object.values<number>({ ...continuity(r, e) }),
    informationGain(r, e),
  ];

  it('are 1 for the truth itself', () => {
    for (const beats of [even(100), even(50, 0.34483, 5.2)])
      for (const s of all(beats, beats)) expect(s).toBeCloseTo(1, 9);
  });

  it('stay between 0 and 1, and move with neither side when both are shifted', () => {
    for (let seed = 1; seed <= 30; seed++) {
      const [a, b] = [unruly(seed), unruly(seed + 99)];
      const here = all(a, b);
      for (const s of here) {
        expect(s).toBeGreaterThanOrEqual(0);
        expect(s).toBeLessThanOrEqual(1 + 1e-12);
      }
      const later = all(a.map((t) => t + 16), b.map((t) => t + 16)); // prettier-ignore
      // The P-score works on a 10 ms raster, on which a shift may round a beat to the next slot.
      here.forEach((s, i) => expect(later[i]).toBeCloseTo(s, i === 1 ? 1 : 6));
    }
  });

  it('are 0 for nothing, and continuity asks for two beats', () => {
    for (const s of all(even(10), [])) expect(s).toBe(0);
    for (const s of all([], even(10))) expect(s).toBe(0);
    expect(continuity(even(10), [0])).toEqual({ cmlc: 0, cmlt: 0, amlc: 0, amlt: 0 });
  });

  it('tell the levels apart: half, double and off-beat count only at any level', () => {
    const beats = even(101, 0.5, 5);
    for (const other of metricalVariations(beats).slice(1)) {
      const c = continuity(beats, other);
      expect(c.cmlt).toBeLessThan(0.02);
      expect(c.amlt).toBeGreaterThan(0.95);
      expect(c.amlc).toBeGreaterThan(0.95);
    }
  });

  it('lose half of the continuity to one beat in the middle', () => {
    const beats = even(101, 0.5, 5);
    const one = beats.map((t, i) => (i === 50 ? t + 0.2 : t));
    const c = continuity(beats, one);
    expect(c.cmlc).toBeCloseTo(50 / 101, 2);
    expect(c.cmlt).toBeCloseTo(99 / 101, 2); // the one itself and the interval after it
  });

  it('leave the first five seconds out when trimmed', () => {
    expect(trimBeats([0, 4.99, 5, 6])).toEqual([5, 6]);
  });
});

describe('beat timing', () => {
  it('measures late beats as a positive bias', () => {
    const t = beatTiming(even(40), even(40).map((b) => b + 0.012)); // prettier-ignore
    expect(t.bias).toBeCloseTo(0.012, 9);
    expect(t.medianError).toBeCloseTo(0.012, 9);
    expect(t.percentile95).toBeCloseTo(0.012, 9);
    expect(t.matched).toBe(1);
  });

  it('looks only at the beats that were found', () => {
    const t = beatTiming(even(40), [...even(20), ...even(20, 0.5, 10.2)]);
    expect(t.matched).toBe(0.5);
    expect(t.medianError).toBeCloseTo(0, 9);
    expect(beatTiming(even(4), [100]).medianError).toBeNull();
  });

  it('tells how far a grid has run off at its end', () => {
    const fast = even(400).map((t) => t * 1.0001);
    expect(beatTiming(even(400), fast).last).toBeCloseTo(0.0001 * even(400)[399], 9);
    // a grid that ends earlier is judged at its own last beat, one on the off-beats not at all
    expect(beatTiming(even(400), fast.slice(0, 200)).last).toBeCloseTo(0.0001 * even(400)[199], 9);
    expect(beatTiming(even(40), even(40).map((t) => t + 0.24)).last).toBeCloseTo(0.24, 9); // prettier-ignore
  });
});

describe('the one tempo of true beats', () => {
  it('is the slope of the line they lie on, to better than a thousandth of a BPM under rounding to a millisecond', () => {
    const beats = even(400, 60 / 127.3).map((t) => Math.round(t * 1000) / 1000);
    expect(Math.abs(steadyTempo(beats)! - 127.3)).toBeLessThan(0.001);
  });

  it('is not there when the tempo changes, or for a handful of beats', () => {
    expect(steadyTempo([...even(100), ...even(100, 0.52).map((t) => t + 50)])).toBeNull();
    expect(steadyTempo(even(10))).toBeNull();
  });
});

/** Size of the largest matching by exhaustive search. */
function largestMatching(a: readonly number[], b: readonly number[], window: number): number {
  if (a.length === 0) return 0;
  const [first, ...rest] = a;
  let best = largestMatching(rest, b, window);
  b.forEach((t, i) => {
    if (Math.abs(t - first) <= window)
      best = Math.max(best, 1 + largestMatching(rest, [...b.slice(0, i), ...b.slice(i + 1)], window));
  });
  return best;
}
