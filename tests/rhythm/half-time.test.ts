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
  };
  const bars = patterns.map((_, i) => ({ number: i + 1, start: 2 * i, end: 2 * i + 2, beats: 4, firstBeat: 4 * i }));
  return { features, bars };
}

const plain = { kick: [0, 1, 2, 3], snare: [1, 3] };
const half = { kick: [0], snare: [2] };
const repeat = <T>(n: number, value: T): T[] => Array.from({ length: n }, () => value);

describe('half-time', () => {
  it('is told for eight bars that leave the pattern of the track, at any usual tempo', () => {
    const { features, bars } = played([...repeat(24, plain), ...repeat(8, half), ...repeat(16, plain)]);
    expect(halfTimeRuns(features, bars, 103).map(({ from, to }) => [from, to])).toEqual([[25, 32]]);
  });

  it('survives a fill', () => {
    const fill = { kick: [0, 2], snare: [0, 1, 2, 3] };
    const { features, bars } = played([...repeat(24, plain), ...repeat(4, half), fill, ...repeat(4, half), ...repeat(16, plain)]); // prettier-ignore
    expect(halfTimeRuns(features, bars, 128).map(({ from, to }) => [from, to])).toEqual([[25, 33]]);
  });

  it('is not heard where the drums rest', () => {
    const quiet = { kick: [], snare: [2] };
    const { features, bars } = played([...repeat(24, plain), ...repeat(8, quiet), ...repeat(16, plain)]);
    expect(halfTimeRuns(features, bars, 128)).toEqual([]);
  });

  it('is told of a whole track only where the tempo can be felt at half', () => {
    const { features, bars } = played(repeat(40, half));
    expect(halfTimeRuns(features, bars, 100)).toEqual([]);
    expect(halfTimeRuns(features, bars, 174).map(({ from, to }) => [from, to])).toEqual([[1, 40]]);
  });
});
