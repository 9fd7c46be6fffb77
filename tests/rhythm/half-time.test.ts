import { describe, expect, it } from 'vitest';
import type { BeatFeatures } from '../../src/rhythm/beat-features.js';
import { halfTimeRuns } from '../../src/rhythm/half-time.js';
import type { GridBar } from '../../src/rhythm/index.js';

/** Bars of four with a kick and a snare on given beats (strength 1 each) over hats that are always there. */
function played(patterns: readonly { kick: readonly number[]; snare: readonly number[] }[]): {
  features: BeatFeatures;
  bars: GridBar[];
} {
  const count = 4 * patterns.length;
  const curve = (on: (bar: number, beat: number) => number) =>
    Float64Array.from({ length: count }, (_, b) => on(b >> 2, b & 3));
  const kick = curve((bar, beat) => (patterns[bar].kick.includes(beat) ? 5 : 0));
  const snare = curve((bar, beat) => (patterns[bar].snare.includes(beat) ? 5 : 0.3));
  const none = new Float64Array(count);
  const hats = none.map(() => 1);
  const features: BeatFeatures = {
    count,
    spectrum: none,
    columns: 1,
    lowColumns: 1,
    chroma: new Float64Array(12 * count),
    onBeat: [kick, kick, none, snare, snare, hats],
    offBeat: [none, none, none, none, none, hats],
    sixteenths: [],
  };
  const bars = patterns.map((_, i) => ({ number: i + 1, start: 2 * i, end: 2 * i + 2, beats: 4, firstBeat: 4 * i }));
  return { features, bars };
}

const plain = { kick: [0, 1, 2, 3], snare: [1, 3] };
const half = { kick: [0], snare: [2] };
const repeat = <T>(n: number, value: T): T[] => Array.from({ length: n }, () => value);

describe('half-time', () => {
  it('is told for a passage that lasts, at a tempo that can be felt at half', () => {
    const { features, bars } = played([...repeat(24, plain), ...repeat(16, half), ...repeat(16, plain)]);
    expect(halfTimeRuns(features, bars, 174).map(({ from, to }) => [from, to])).toEqual([[25, 40]]);
    expect(halfTimeRuns(features, bars, 103)).toEqual([]);
  });

  it('survives a fill', () => {
    const fill = { kick: [0, 2], snare: [0, 1, 2, 3] };
    const passage = [...repeat(8, half), fill, ...repeat(8, half)];
    const { features, bars } = played([...repeat(24, plain), ...passage, ...repeat(16, plain)]);
    expect(halfTimeRuns(features, bars, 140).map(({ from, to }) => [from, to])).toEqual([[25, 41]]);
  });

  it('is not heard where the kick rests, nor in a turn of a few bars', () => {
    const quiet = { kick: [], snare: [2] };
    for (const [n, pattern] of [
      [16, quiet],
      [8, half],
    ] as const) {
      const { features, bars } = played([...repeat(24, plain), ...repeat(n, pattern), ...repeat(16, plain)]);
      expect(halfTimeRuns(features, bars, 140)).toEqual([]);
    }
  });

  it('may be the feel of a whole track', () => {
    const { features, bars } = played(repeat(40, half));
    expect(halfTimeRuns(features, bars, 174).map(({ from, to }) => [from, to])).toEqual([[1, 40]]);
  });
});
