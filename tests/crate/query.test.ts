import { describe, expect, it } from 'vitest';
import { outlineOf, phraseRegularity, queryCrate, trackName, type TrackOutline } from '../../src/crate/index.js';
import type { Mode, PitchClass } from '../../src/units/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';

interface Facts {
  title: string;
  bpm?: number;
  key?: [PitchClass, Mode] | null;
  seconds?: number;
  lufs?: number | null;
  odd?: number;
}

function track({ title, bpm = 124, key = null, seconds = 300, lufs = -9, odd = 0 }: Facts): TrackOutline {
  const outline = outlineOf(sampleAnalysis());
  return {
    ...outline,
    source: {
      ...outline.source,
      file: `${title}.wav`,
      durationSeconds: seconds,
      tags: { ...outline.source.tags, title },
    },
    tempo: { ...outline.tempo, bpm },
    key: { tonic: key?.[0] ?? null, mode: key?.[1] ?? null, confidence: 0.9 },
    loudness: { ...outline.loudness, integratedLufs: lufs },
    irregularities: Array.from({ length: odd }, (_, i) => ({
      kind: 'added-bars' as const,
      bar: i + 1,
      parameters: {},
    })),
  };
}
const titles = (tracks: readonly TrackOutline[]) => tracks.map(trackName);

describe('queryCrate', () => {
  const crate = [
    track({ title: 'b', bpm: 126, key: ['C', 'major'], seconds: 200, odd: 1 }),
    track({ title: 'a 10', bpm: 120, key: ['A', 'minor'], seconds: 400, lufs: -7 }),
    track({ title: 'a 9', bpm: 120, key: ['G', 'major'], seconds: 400, lufs: null }),
    track({ title: 'c', bpm: 140, key: null }),
  ];

  it('keeps what lies in a range, both ends included', () => {
    expect(titles(queryCrate(crate, { tempo: [120, 126] }))).toEqual(['b', 'a 10', 'a 9']);
    expect(titles(queryCrate(crate, { length: [201, Infinity] }))).toEqual(['a 10', 'a 9', 'c']);
  });

  it('keeps one key, and the regular or the odd', () => {
    expect(titles(queryCrate(crate, { key: { tonic: 'A', mode: 'minor' } }))).toEqual(['a 10']);
    expect(titles(queryCrate(crate, { phrases: 'odd' }))).toEqual(['b']);
    expect(queryCrate(crate, { phrases: 'regular' })).toHaveLength(3);
  });

  it('asks for sections in their order, whatever comes between', () => {
    // The sample goes intro, main, breakdown, build-up, drop, outro.
    expect(queryCrate(crate, { sections: ['intro', 'breakdown', 'drop'] })).toHaveLength(4);
    expect(queryCrate(crate, { sections: ['drop', 'breakdown'] })).toHaveLength(0);
    expect(queryCrate(crate, { sections: ['drop', 'drop'] })).toHaveLength(0);
  });

  it('orders by name with numbers by value, and takes the name where values are equal', () => {
    expect(titles(queryCrate(crate, { order: 'name' }))).toEqual(['a 9', 'a 10', 'b', 'c']);
    expect(titles(queryCrate(crate, { order: 'tempo', descending: true }))).toEqual(['c', 'b', 'a 9', 'a 10']);
  });

  it('passes over case and accents in names', () => {
    const named = ['Zoo', 'éclair', 'Apple 2', 'apple 10', 'zebra', 'Eclipse'].map((title) => track({ title }));
    expect(titles(queryCrate(named, { order: 'name' }))).toEqual([
      'Apple 2',
      'apple 10',
      'éclair',
      'Eclipse',
      'zebra',
      'Zoo',
    ]);
  });

  it('puts what has no key or no loudness last, in both directions', () => {
    expect(titles(queryCrate(crate, { order: 'key' })).at(-1)).toBe('c');
    expect(titles(queryCrate(crate, { order: 'key', descending: true })).at(-1)).toBe('c');
    expect(titles(queryCrate(crate, { order: 'loudness', descending: true })).at(-1)).toBe('a 9');
  });

  it('leaves the list it was given as it was', () => {
    const before = titles(crate);
    queryCrate(crate, { order: 'name', descending: true });
    expect(titles(crate)).toEqual(before);
  });
});

// The circle of fifths from C upwards, each with its relative minor: common knowledge of music theory, no source needed.
const CIRCLE: [PitchClass, PitchClass][] = [
  ['C', 'A'],
  ['G', 'E'],
  ['D', 'B'],
  ['A', 'F#'],
  ['E', 'C#'],
  ['B', 'G#'],
  ['F#', 'D#'],
  ['C#', 'A#'],
  ['G#', 'F'],
  ['D#', 'C'],
  ['A#', 'G'],
  ['F', 'D'],
];

it('orders keys round the circle of fifths, a minor key right after its relative major', () => {
  const expected = CIRCLE.flatMap(([major, minor]) => [`${major} major`, `${minor} minor`]);
  const crate = CIRCLE.flatMap(([major, minor]) => [
    track({ title: `${major} major`, key: [major, 'major'] }),
    track({ title: `${minor} minor`, key: [minor, 'minor'] }),
  ]).sort((a, b) => trackName(a).localeCompare(trackName(b)));
  expect(titles(queryCrate(crate, { order: 'key' }))).toEqual(expected);
});

it('weighs regularity in bars', () => {
  expect(
    phraseRegularity({
      phrases: [
        { bars: 16, regular: true },
        { bars: 4, regular: false },
      ],
    }),
  ).toBe(0.8);
  expect(phraseRegularity({ phrases: [] })).toBe(0);
});
