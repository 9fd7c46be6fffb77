import { describe, expect, it } from 'vitest';
import { lastingJumps } from '../../src/rhythm/lasting-jumps.js';
import { findGrid } from '../../src/rhythm/index.js';
import { fMeasure, hear, playBand, steady } from './drums.js';

/** A track whose beats [from, to) fit a phase by so many nats a beat, others by none. */
const fitOf =
  (parts: readonly { from: number; to: number; shift: number; nats: number }[]) =>
  (from: number, to: number, shift: number) =>
    parts.filter((p) => p.from < to && p.to > from && p.shift === shift).reduce((s, p) => s + p.nats, 0);

describe('jumps of the beat', () => {
  it('that come back are no edits', () => {
    const segments = [
      { beat: 0, shift: 0 },
      { beat: 256, shift: 0.5 },
      { beat: 316, shift: 0 },
    ];
    expect(lastingJumps(segments, 600, () => 9)).toEqual([{ beat: 0, shift: 0 }]);
  });

  it('stay where both sides are clear about their phase', () => {
    const segments = [
      { beat: 0, shift: 0 },
      { beat: 200, shift: 0.5 },
    ];
    const sides = { from: 0, to: 200, shift: 0, nats: 4 };
    const clear = fitOf([sides, { from: 200, to: 400, shift: 0.5, nats: 3 }]);
    expect(lastingJumps(segments, 400, clear)).toEqual(segments);
    const vague = fitOf([sides, { from: 200, to: 400, shift: 0.5, nats: 1 }]);
    expect(lastingJumps(segments, 400, vague)).toHaveLength(1);
    expect(lastingJumps(segments, 215, clear)).toEqual([{ beat: 0, shift: 0 }]);
  });

  it('follow an edit of half a beat', () => {
    const band = steady(126, 256);
    const later = band.beats.map((t, i) => (i < 128 ? t : t + 30 / 126));
    const grid = findGrid(hear(playBand({ ...band, beats: later })));
    expect(fMeasure(later, grid.beats)).toBeGreaterThan(0.97);
  });
});
