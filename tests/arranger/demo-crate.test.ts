import { describe, expect, test } from 'vitest';
import { arrangementTruth, demoCrate } from '../../src/arranger/index.js';

const crate = demoCrate();
const truths = crate.map((track) => arrangementTruth(track.arrangement));

describe('the demo crate', () => {
  test('holds nine tracks of two to five minutes with names, titles and keys of their own', () => {
    expect(crate).toHaveLength(9);
    for (const property of ['name', 'title'] as const)
      expect(new Set(crate.map((track) => track[property])).size).toBe(9);
    expect(new Set(truths.map(({ key }) => `${key.tonic} ${key.mode}`)).size).toBe(9);
    for (const { sections } of truths) {
      expect(sections.at(-1)!.end).toBeGreaterThan(120);
      expect(sections.at(-1)!.end).toBeLessThan(300);
    }
  });

  test('is written in WAV and in compressed formats', () => {
    expect(new Set(crate.map(({ format }) => format))).toEqual(new Set(['wav', 'flac', 'mp3', 'ogg']));
  });

  test('shows one thing a track, at tempos from 84 to 174', () => {
    const kinds = truths.map(({ irregularities }) => irregularities.map(({ kind, amount }) => `${kind} ${amount}`));
    expect(kinds).toEqual([
      [],
      [],
      ['added-bars 2'],
      ['pick-up 3'],
      ['dropped-beats 2'],
      ['beatless-passage 16'],
      ['drift 0'],
      ['half-time 32'],
      [],
    ]);
    expect(truths[0].phrases.every(({ bars }) => bars === 8)).toBe(true);
    expect(truths[1].phrases.every(({ bars }) => bars === 16)).toBe(true);
    expect(truths[8].beatsPerBar).toBe(3);
    expect(Math.min(...truths.map(({ bpm }) => bpm))).toBe(84);
    expect(Math.max(...truths.map(({ bpm }) => bpm))).toBe(174);
  });

  test('the surplus bars come right before the drop lands', () => {
    const { irregularities, sections } = truths[2];
    const drop = sections.find((section) => section.function === 'drop')!;
    expect(irregularities[0].bar + irregularities[0].amount).toBe(drop.startBar);
  });
});
