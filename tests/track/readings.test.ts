import { rm } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ArrangementTruth } from '../../src/arranger/index.js';
import { readingName, readingsChart, toSvg } from '../../src/charts/index.js';
import {
  analyseWithCurves,
  compareOnes,
  structureOf,
  type HeardTrack,
  type OneComparison,
  type TrackAnalysis,
} from '../../src/track/index.js';
import { halfDemoTrack } from './half-demo-track.js';

/** A demo track whose ones are known exactly: the reading of the truth must win, and from a wrong one the way back be seen. */
describe('what if the one were later', () => {
  let folder: string;
  let analysis: TrackAnalysis;
  let heard: HeardTrack;
  let truth: ArrangementTruth;
  let found: OneComparison;

  beforeAll(async () => {
    const track = await halfDemoTrack();
    ({ folder, truth } = track);
    ({ analysis, heard } = await analyseWithCurves(track.file));
    found = compareOnes(heard, analysis);
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  it('asks for every beat of the bar, and for one, two, three bars and half a phrase', () => {
    expect(found.byBeat.map((r) => r.shiftBeats)).toEqual([0, 1, 2, 3]);
    expect(found.byBar.map((r) => r.shiftBars)).toEqual([0, 1, 2, 3, analysis.phraseBars / 2]);
    expect(found.byBeat.map(readingName)).toEqual(['as counted', '1 beat later', '2 beats later', '3 beats later']);
    for (const r of found.byBar) expect(r.firstOne).toBeCloseTo(analysis.bars[r.shiftBars!].start, 3);
  });

  it('shares out all evidence, most of it to the ones that the arrangement has', () => {
    for (const readings of [found.byBeat, found.byBar]) {
      expect(readings.reduce((sum, r) => sum + r.weight, 0)).toBeCloseTo(1, 2);
      expect(Math.max(...readings.map((r) => r.weight))).toBe(readings[0].weight);
      const [first, ...others] = readings.map((r) => r.evidence);
      for (const other of others) {
        expect(first.changesShare).toBeGreaterThan(other.changesShare);
        expect(first.soundDecibels).toBeGreaterThan(other.soundDecibels);
      }
    }
    expect(found.byBar[0].firstOne).toBeCloseTo(truth.phrases[0].start, 1);
  });

  it('has more odd phrases to explain the further it is from the pattern', () => {
    expect(found.byBar[0].oddPhrases).toBe(1);
    expect(found.byBar[1].oddPhrases).toBeGreaterThan(found.byBar[0].oddPhrases);
  });

  it('shows the way back from a first one that was said to be a bar too late', () => {
    // Every phrase: where only some are said to be late, the others stay where the music has them.
    const wrong = structureOf(heard, {
      corrections: analysis.phrases.map(({ startBar }) => ({
        kind: 'phrase',
        time: analysis.bars[startBar].start,
        starts: true,
      })),
    });
    const { byBar } = compareOnes(heard, wrong, { bars: [7] });
    expect(byBar[1].evidence.changesShare).toBeGreaterThan(byBar[0].evidence.changesShare);
  });

  it('draws each reading as a row with its figures', async () => {
    const spec = readingsChart(found.byBar);
    const svg = await toSvg(spec);
    for (const reading of found.byBar) expect(svg).toContain(readingName(reading));
    expect(svg).toContain(`${Math.round(100 * found.byBar[0].evidence.changesShare)} %`);
    expect(svg).toMatch(/dB/);
    expect(spec.description).toMatch(/as counted: \d+ % of the layer changes/);
  });

  it('stops when it is told to', () => {
    expect(() => compareOnes(heard, analysis, { signal: AbortSignal.abort() })).toThrow(/Stopped/);
  });
});
