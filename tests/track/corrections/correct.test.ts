import { rm } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ArrangementTruth } from '../../../src/arranger/index.js';
import {
  hearTrack,
  isMet,
  structureOf,
  type Correction,
  type HeardTrack,
  type TrackAnalysis,
} from '../../../src/track/index.js';
import { tempoDoubt } from '../../../src/wording/index.js';
import { expectConsistent } from '../consistent.js';
import { halfDemoTrack } from '../half-demo-track.js';

let folder: string;
let file: string;
let heard: HeardTrack;
let truth: ArrangementTruth;
let before: TrackAnalysis;

beforeAll(async () => {
  ({ folder, file, truth } = await halfDemoTrack());
  heard = await hearTrack(file);
  before = structureOf(heard);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const under = (...corrections: Correction[]) => structureOf(heard, { corrections });
const bar = (number: number) => before.bars.find((b) => b.number === number)!;

describe('a correction is run under, not patched in', () => {
  it('finds the truth of the arrangement without one, so that what follows starts from it', () => {
    expectConsistent(before);
    expect(before.tempo.bpm).toBeCloseTo(truth.bpm, 1);
    expect(before.corrections).toEqual([]);
    expect(before.analysis.correctionsDigest).toBe('none');
  });

  it('counts at half the tempo: every second beat, half the bars, and no doubt left', () => {
    const after = under({ kind: 'tempo', bpm: truth.bpm / 2 });
    expectConsistent(after);
    expect(after.tempo.bpm).toBeCloseTo(truth.bpm / 2, 1);
    expect(after.tempo.alternatives).toHaveLength(1);
    expect(tempoDoubt(after)).toBeNull();
    expect(after.beats.length / before.beats.length).toBeCloseTo(0.5, 1);
    const off = after.beats.map((t) => Math.min(...truth.beats.map((b) => Math.abs(b - t))));
    expect(off.filter((d) => d > 0.02).length).toBeLessThan(0.05 * off.length);
    expect(after.analysis.correctionsDigest).not.toBe('none');
  });

  it.each([1, 2, 3])('moves the first one by %i beats, and all that is counted from it', (beats) => {
    const time = before.beats[beats];
    const after = under({ kind: 'first-one', time });
    expectConsistent(after);
    expect(after.bars[0]).toMatchObject({ number: 1, groupBar: 1, phraseBar: 1 });
    expect(after.bars[0].start).toBeCloseTo(time, 2);
    expect(after.beats[0]).toBeCloseTo(time, 2);
    expect(after.downbeat.confidence).toBe(1);
  });

  it('begins the count where the first one is, bars after the sound begins', () => {
    const after = under({ kind: 'first-one', time: bar(9).start });
    expectConsistent(after);
    expect(after.bars[0].start).toBeCloseTo(bar(9).start, 2);
    expect(after.bars).toHaveLength(before.bars.length - 8);
    expect(after.phrases[0].start).toBeCloseTo(bar(9).start, 2);
  });

  it('puts a beat where a person hears it: on the off-beat', () => {
    const time = (before.beats[20] + before.beats[21]) / 2;
    const after = under({ kind: 'beat', time });
    expectConsistent(after);
    expect(isMet({ kind: 'beat', time }, before)).toBe(false);
    expect(isMet({ kind: 'beat', time }, after)).toBe(true);
  });

  it('counts in threes when a bar has three beats', () => {
    const after = under({ kind: 'metre', beatsPerBar: 3 });
    expectConsistent(after);
    expect(after.metre).toMatchObject({ beatsPerBar: 3, confidence: 1 });
  });

  it('starts a phrase at a bar where none did, and the bars after it are counted anew', () => {
    const time = bar(22).start;
    const after = under({ kind: 'phrase', time, starts: true });
    expectConsistent(after);
    expect(after.phrases.map((p) => p.startBar)).toContain(22);
    expect(after.bars.find((b) => b.number === 22)).toMatchObject({ groupBar: 1, phraseBar: 1 });
    // Before it every bar keeps its place in its group and every phrase its start; the word may decide between 8s and 16s.
    const earlier = (track: typeof after) =>
      track.bars
        .filter((b) => b.number < 17)
        .map(({ number, start, group, groupBar }) => ({ number, start, group, groupBar }));
    expect(earlier(after)).toEqual(earlier(before));
    const starts = before.phrases.map((p) => p.startBar).filter((b) => b < 17);
    expect(after.phrases.map((p) => p.startBar)).toEqual(expect.arrayContaining(starts));
  });

  it('makes a bar of the beat on which a phrase starts, in the midst of a bar', () => {
    const time = before.beats[before.bars.findIndex((b) => b.number === 22) * 4 + 2];
    const after = under({ kind: 'phrase', time, starts: true });
    expectConsistent(after);
    expect(isMet({ kind: 'phrase', time, starts: true }, after)).toBe(true);
  });

  it('joins two phrases where a person hears no one', () => {
    const [, second] = before.phrases;
    const after = under({ kind: 'phrase', time: second.start, starts: false });
    expectConsistent(after);
    expect(after.phrases.map((p) => p.startBar)).not.toContain(second.startBar);
  });

  it('starts a section, and gives it the function that was said', () => {
    const after = under({ kind: 'section', time: bar(22).start, starts: true, function: 'breakdown' });
    expectConsistent(after);
    expect(after.sections.find((s) => s.startBar === 22)).toMatchObject({ function: 'breakdown' });
  });

  it('joins two sections', () => {
    const section = before.sections[2];
    const after = under({ kind: 'section', time: section.start, starts: false, function: null });
    expectConsistent(after);
    expect(after.sections.map((s) => s.startBar)).not.toContain(section.startBar);
  });

  it('lets a layer enter on the beat that was said, and no longer where it was heard', () => {
    const bass = before.events.find((e) => e.layer === 'bass' && e.change === 'enters')!;
    const time = before.beats[before.beats.findIndex((t) => Math.abs(t - bass.time) < 0.01) + 32];
    const gone: Correction = { kind: 'event', time: bass.time, layer: 'bass', change: 'enters', happens: false };
    const there: Correction = { kind: 'event', time, layer: 'bass', change: 'enters', happens: true };
    expect([isMet(gone, before), isMet(there, before)]).toEqual([false, false]);
    const after = under(gone, there);
    expectConsistent(after);
    expect([isMet(gone, after), isMet(there, after)]).toEqual([true, true]);
    const entries = after.events.filter((e) => e.layer === 'bass' && e.change === 'enters');
    const [found] = entries;
    expect(found.time).toBeCloseTo(time, 2);
    expect(found.confidence).toBe(1);
    const at = after.bars.findIndex((b) => b.number === found.bar);
    expect(after.layers.bass[at - 1]!).toBeLessThan(0.5);
    expect(after.layers.bass[at]!).toBeGreaterThan(0.5);
  });

  it('holds all of them at once', () => {
    const all: Correction[] = [
      { kind: 'first-one', time: before.bars[0].start },
      { kind: 'phrase', time: bar(22).start, starts: true },
      { kind: 'section', time: bar(33).start, starts: true, function: 'drop' },
      { kind: 'event', time: bar(22).start, layer: 'voice', change: 'enters', happens: true },
    ];
    const after = under(...all);
    expectConsistent(after);
    expect(all.filter((c) => !isMet(c, after))).toEqual([]);
    expect(after.corrections).toEqual(all);
  });
});
