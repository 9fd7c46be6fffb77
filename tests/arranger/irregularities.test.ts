import { describe, expect, test } from 'vitest';
import { arrangementTruth } from '../../src/arranger/index.js';
import type { ArrangedPart, ArrangedPhrase } from '../../src/arranger/index.js';
import { small } from './small.js';

const regular: ArrangedPhrase = { bars: 8, layers: ['kick', 'bass'] };

function planted(second: ArrangedPhrase, rest: readonly ArrangedPart[] = []): unknown[] {
  const truth = arrangementTruth(small([{ function: 'main', phrases: [regular, second, regular] }, ...rest]));
  return truth.irregularities.map(({ kind, bar, amount }) => [kind, bar, amount]);
}

/** The bar of each kind is the convention of units/vocabulary.ts. */
describe('planted irregularities are at the bar that the vocabulary says', () => {
  test('added bars: the first surplus bar', () => {
    expect(planted({ ...regular, bars: 10, addedBars: 2 })).toEqual([['added-bars', 17, 2]]);
  });
  test('dropped bars: the bar at which the next phrase starts early', () => {
    expect(planted({ ...regular, bars: 6, addedBars: -2 })).toEqual([['dropped-bars', 15, 2]]);
  });
  test('dropped and added beats: the bar that has them', () => {
    expect(planted({ ...regular, oddBars: [{ bar: 8, beats: 2 }] })).toEqual([['dropped-beats', 16, 2]]);
    expect(planted({ ...regular, oddBars: [{ bar: 5, beats: 6 }] })).toEqual([['added-beats', 13, 2]]);
  });
  test('a pick-up: the bar whose one it leads to', () => {
    const pickUp = { beats: 3, layers: ['voice'] } as const;
    expect(planted({ bars: 8, layers: ['kick', 'bass', 'voice'], pickUp })).toEqual([['pick-up', 9, 3]]);
  });
  test('no pick-up of a layer that plays already', () => {
    const truth = arrangementTruth(
      small([
        { function: 'intro', phrases: [{ bars: 8, layers: ['kick', 'bass'] }] },
        { function: 'main', phrases: [{ ...regular, pickUp: { beats: 3, layers: ['bass'] } }] },
      ]),
    );
    expect(truth.irregularities).toEqual([]);
  });
  test('an odd phrase: its first bar', () => {
    expect(planted({ ...regular, bars: 7, odd: true })).toEqual([['odd-phrase', 9, 7]]);
  });
  test('a beatless passage and half-time: the first bar, with their length', () => {
    expect(planted({ bars: 16, layers: ['harmony', 'voice'], textures: ['pad'] })).toEqual([
      ['beatless-passage', 9, 16],
    ]);
    expect(planted({ ...regular, halfTime: true })).toEqual([['half-time', 9, 8]]);
  });
  test('a breakdown whose arpeggio keeps the pulse is no beatless passage', () => {
    expect(planted({ bars: 16, layers: ['harmony'], textures: ['pad', 'arp'] })).toEqual([]);
  });
  test('a tempo change: the first bar at the new tempo', () => {
    expect(planted(regular, [{ function: 'outro', bpm: 126, phrases: [regular] }])).toEqual([['tempo-change', 25, 0]]);
  });
  test('drift: bar 1', () => {
    const truth = arrangementTruth(small(undefined, { drift: { depth: 0.01, jitter: 0 } }));
    expect(truth.irregularities.map(({ kind, bar }) => [kind, bar])).toEqual([['drift', 1]]);
  });
});

describe('what an irregularity does to the times', () => {
  test('two dropped beats bring everything after them forward by two beats', () => {
    const straight = arrangementTruth(small([{ function: 'main', phrases: [regular, regular] }]));
    const dropped = arrangementTruth(
      small([{ function: 'main', phrases: [{ ...regular, oddBars: [{ bar: 4, beats: 2 }] }, regular] }]),
    );
    expect(dropped.bars[3]).toEqual({ ...straight.bars[3], beats: 2 });
    for (let bar = 4; bar < 16; bar++) expect(straight.bars[bar].start - dropped.bars[bar].start).toBeCloseTo(1, 9);
  });

  test('a pick-up moves the entry before the one, into the bar before', () => {
    const truth = arrangementTruth(
      small([
        { function: 'intro', phrases: [{ bars: 8, layers: ['kick'] }] },
        { function: 'main', phrases: [{ ...regular, pickUp: { beats: 3, layers: ['bass'] } }] },
      ]),
    );
    const bass = truth.events.find(({ layer }) => layer === 'bass')!;
    expect(bass.bar).toBe(8);
    expect(bass.time).toBeCloseTo(truth.bars[8].start - 1.5, 9);
  });
});
