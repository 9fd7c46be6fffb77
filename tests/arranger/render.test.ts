import { describe, expect, test } from 'vitest';
import { renderArrangement, STYLES } from '../../src/arranger/index.js';
import type { Arrangement } from '../../src/arranger/index.js';
import { sharpestRise } from './onsets.js';
import { small } from './small.js';

const full: Arrangement = small([
  {
    function: 'main',
    phrases: [{ bars: 4, layers: ['kick', 'bass', 'percussion', 'harmony', 'voice'], fill: 'toms' }],
  },
  { function: 'build-up', phrases: [{ bars: 4, layers: ['percussion', 'harmony'] }] },
  { function: 'drop', phrases: [{ bars: 4, layers: ['kick', 'bass', 'percussion', 'harmony'] }] },
]);

function rms(signal: Float32Array, rate: number, from: number, to: number): number {
  let sum = 0;
  const [a, b] = [Math.round(from * rate), Math.round(to * rate)];
  for (let i = a; i < b; i++) sum += signal[i] ** 2;
  return Math.sqrt(sum / (b - a));
}

describe('a rendered arrangement', () => {
  test('is the same for the same seed, sample by sample, and another for another seed', () => {
    const first = renderArrangement(full);
    const again = renderArrangement(full);
    expect(Buffer.from(first.left.buffer).equals(Buffer.from(again.left.buffer))).toBe(true);
    expect(Buffer.from(first.right.buffer).equals(Buffer.from(again.right.buffer))).toBe(true);
    expect(first.truth).toEqual(again.truth);
    const other = renderArrangement({ ...full, seed: 6 });
    expect(Buffer.from(first.left.buffer).equals(Buffer.from(other.left.buffer))).toBe(false);
  });

  test.each(STYLES)('%s: no sample passes −1.5 dBFS, none is NaN, it is stereo and not quiet', (style) => {
    const { left, right, sampleRate } = renderArrangement({
      ...full,
      style,
      beatsPerBar: style === 'lilting-three' ? 3 : 4,
    });
    let peak = 0;
    let difference = 0;
    for (let i = 0; i < left.length; i++) {
      peak = Math.max(peak, Math.abs(left[i]), Math.abs(right[i]));
      difference = Math.max(difference, Math.abs(left[i] - right[i]));
      if (Number.isNaN(left[i] + right[i])) throw new Error(`NaN at frame ${i}`);
    }
    expect(peak).toBeLessThanOrEqual(0.84 + 1e-6);
    expect(difference).toBeGreaterThan(0.05);
    expect(rms(left, sampleRate, 1, 5)).toBeGreaterThan(0.1);
  });

  test('is silent before its lead-in and rings out after its last beat', () => {
    const { left, sampleRate, truth } = renderArrangement(small(undefined, { leadIn: 0.4 }));
    expect(rms(left, sampleRate, 0, 0.399)).toBeLessThan(1e-15);
    expect(truth.beats[0]).toBe(0.4);
    expect(left.length / sampleRate).toBeGreaterThan(truth.sections.at(-1)!.end + 2);
    expect(rms(left, sampleRate, left.length / sampleRate - 0.2, left.length / sampleRate)).toBeLessThan(0.003);
  });

  test.each(['warm-four', 'driving-four', 'hard-four', 'slow-swing', 'live-band', 'lilting-three'] as const)(
    '%s: each kick starts within 1 ms of a beat of the truth',
    (style) => {
      const parts = [{ function: 'intro' as const, phrases: [{ bars: 8, layers: ['kick'] as const }] }];
      const { left, sampleRate, truth } = renderArrangement(small(parts, { style, bpm: 127.3, leadIn: 0.0837 }));
      for (const beat of truth.beats) expect(Math.abs(sharpestRise(left, sampleRate, beat) - beat)).toBeLessThan(0.001);
    },
  );

  test('after two dropped beats the kicks come two beats earlier', () => {
    const phrase = { bars: 4, layers: ['kick'] as const };
    const parts = [{ function: 'intro' as const, phrases: [{ ...phrase, oddBars: [{ bar: 2, beats: 2 }] }, phrase] }];
    const { left, sampleRate, truth } = renderArrangement(small(parts));
    expect(truth.beats).toHaveLength(30);
    // Worked out by hand: 0.1 s of silence, then a kick each half second; bars of 4, 2, 4, 4 beats start at beats 0, 4, 6, 10.
    expect(truth.bars.slice(0, 4).map(({ start }) => Number(start.toFixed(6)))).toEqual([0.1, 2.1, 3.1, 5.1]);
    for (const beat of truth.beats) expect(Math.abs(sharpestRise(left, sampleRate, beat) - beat)).toBeLessThan(0.001);
  });

  test('a drifting drummer strikes around the beats with the scatter that was asked for', () => {
    const parts = [{ function: 'intro' as const, phrases: [{ bars: 24, layers: ['kick'] as const }] }];
    const drift = { depth: 0.015, jitter: 0.004 };
    const { left, sampleRate, truth } = renderArrangement(small(parts, { style: 'live-band', bpm: 104, drift }));
    const errors = truth.beats.map((beat) => sharpestRise(left, sampleRate, beat) - beat);
    const spread = Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length);
    expect(spread).toBeGreaterThan(0.0025);
    expect(spread).toBeLessThan(0.0055);
  });

  test('a layer that enters can be heard from its event on', () => {
    const parts = [
      { function: 'intro' as const, phrases: [{ bars: 4, layers: ['percussion'] as const }] },
      { function: 'main' as const, phrases: [{ bars: 4, layers: ['percussion', 'bass'] as const }] },
    ];
    const { left, sampleRate, truth } = renderArrangement(small(parts));
    const { time } = truth.events.find(({ layer }) => layer === 'bass')!;
    expect(rms(left, sampleRate, time, time + 4)).toBeGreaterThan(2 * rms(left, sampleRate, time - 4, time));
  });

  test('tells its progress up to 1 and stops when asked to', () => {
    const told: number[] = [];
    renderArrangement(small(), { onProgress: ({ done }) => told.push(done) });
    expect(told.at(-1)).toBe(1);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    const controller = new AbortController();
    controller.abort();
    expect(() => renderArrangement(small(), { signal: controller.signal })).toThrow(
      'Stopped before the work was done.',
    );
  });
});
