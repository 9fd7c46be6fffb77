import { describe, expect, test } from 'vitest';
import { arrangementTruth, demoCrate, randomArrangement } from '../../src/arranger/index.js';
import type { ArrangementTruth } from '../../src/arranger/index.js';
import { small } from './small.js';

const SEEDS = Array.from({ length: 150 }, (_, seed) => seed);

function expectPartition(truth: ArrangementTruth): void {
  let beat = 0;
  truth.bars.forEach((bar, i) => {
    expect(bar.number).toBe(i + 1);
    expect(bar.start).toBe(truth.beats[beat]);
    beat += bar.beats;
  });
  expect(beat).toBe(truth.beats.length);

  let bar = 1;
  for (const phrase of truth.phrases) {
    expect(phrase.startBar).toBe(bar);
    expect(phrase.start).toBe(truth.bars[bar - 1].start);
    bar += phrase.bars;
  }
  expect(bar).toBe(truth.bars.length + 1);

  const phraseStarts = new Set(truth.phrases.map((phrase) => phrase.startBar));
  let sectionBar = 1;
  let end = truth.beats[0];
  for (const section of truth.sections) {
    expect(section.startBar).toBe(sectionBar);
    expect(phraseStarts.has(section.startBar)).toBe(true);
    expect(section.start).toBe(end);
    sectionBar += section.bars;
    end = section.end;
  }
  expect(sectionBar).toBe(truth.bars.length + 1);
  expect(end).toBeGreaterThan(truth.beats.at(-1)!);
}

describe('the truth of an arrangement', () => {
  test('bars tile the beats, phrases tile the bars, sections are unions of phrases, for any seed', () => {
    for (const seed of SEEDS) expectPartition(arrangementTruth(randomArrangement(seed)));
    for (const track of demoCrate()) expectPartition(arrangementTruth(track.arrangement));
  });

  test('beats ascend, and without drift or tempo change they are a beat apart to a microsecond', () => {
    for (const seed of SEEDS) {
      const arrangement = randomArrangement(seed);
      const { beats, irregularities } = arrangementTruth(arrangement);
      const steady = !irregularities.some(({ kind }) => kind === 'drift' || kind === 'tempo-change');
      for (let i = 1; i < beats.length; i++) {
        const gap = beats[i] - beats[i - 1];
        expect(gap).toBeGreaterThan(0.2);
        if (steady) expect(Math.abs(gap - 60 / arrangement.bpm)).toBeLessThan(1e-6);
      }
    }
  });

  test('beats do not wander from the clock in a long track', () => {
    const truth = arrangementTruth(
      small([{ function: 'main', phrases: [{ bars: 1000, layers: ['kick'] }] }], { bpm: 127 }),
    );
    expect(truth.beats[3999]).toBeCloseTo(0.1 + (3999 * 60) / 127, 9);
  });

  test('layers enter and leave in turns, each event on a beat of the bar it names', () => {
    for (const seed of SEEDS) {
      const { events, bars, beats } = arrangementTruth(randomArrangement(seed));
      const on = new Set<string>();
      for (const event of events) {
        expect(on.has(event.layer)).toBe(event.change === 'leaves');
        if (event.change === 'enters') on.add(event.layer);
        else on.delete(event.layer);
        expect(beats).toContain(event.time);
        expect(event.time).toBeGreaterThanOrEqual(bars[event.bar - 1].start);
        expect(event.time).toBeLessThan(bars[event.bar]?.start ?? Infinity);
      }
    }
  });

  test('a drifting drummer keeps within the depth that was asked for, and really drifts', () => {
    const { beats, bpm } = arrangementTruth(
      small([{ function: 'main', phrases: [{ bars: 100, layers: ['kick'] }] }], {
        drift: { depth: 0.015, jitter: 0.004 },
      }),
    );
    const tempos = beats.slice(1).map((time, i) => 60 / (time - beats[i]));
    expect(Math.max(...tempos)).toBeLessThanOrEqual(120 * 1.0151);
    expect(Math.min(...tempos)).toBeGreaterThanOrEqual(120 * 0.9849);
    expect(Math.max(...tempos) - Math.min(...tempos)).toBeGreaterThan(1.8);
    expect(Math.abs(bpm - 120)).toBeLessThan(1.8);
  });
});

describe('an arrangement that cannot be laid out', () => {
  test('without bars it is refused in one sentence', () => {
    expect(() => arrangementTruth(small([]))).toThrow('An arrangement needs from 1 to 4000 bars, not 0.');
  });
  test('with an impossible tempo it is refused in one sentence', () => {
    expect(() => arrangementTruth(small(undefined, { bpm: 0 }))).toThrow(
      'An arrangement needs a tempo from 20 to 400 BPM, not 0.',
    );
  });
});
