import { describe, expect, it } from 'vitest';
import { findGrid, type Grid } from '../../src/rhythm/index.js';
import { ANALYSIS_RATE } from '../../src/signal/index.js';
import { BarwiseError, randomNumbers } from '../../src/units/index.js';
import { fMeasure, hear, playBand, steady } from './drums.js';

const starts = (grid: Grid) => grid.bars.filter((b) => b.number >= 1).map((b) => b.start);
const onsetsOf = (band: { beats: readonly number[]; downbeats: readonly number[] }) =>
  band.downbeats.map((d) => band.beats[d]);

/** Beats must lie within 70 ms: Davies, Degara & Plumbley, "Evaluation methods for musical audio beat tracking", 2009. */
describe('a grid on music made to a clock', () => {
  const band = steady(124, 160);
  const grid = findGrid(hear(playBand(band)));

  it('has the tempo to a few thousandths of a BPM, and the beats within milliseconds', () => {
    // derived: at 124 BPM a beat lasts 0.483871 s, a bar of four 1.935484 s
    expect(grid.tempo.bpm).toBeCloseTo(124, 2);
    expect(grid.tempo.steadiness).toBe('constant');
    expect(fMeasure(band.beats, grid.beats)).toBeGreaterThan(0.99);
    const errors = band.beats.map((t) => Math.min(...grid.beats.map((b) => Math.abs(b - t)))).sort((a, b) => a - b);
    expect(errors[errors.length >> 1]).toBeLessThan(0.003);
  });

  it('has four beats to the bar and the ones in their places', () => {
    expect(grid.metre.beatsPerBar).toBe(4);
    expect(fMeasure(onsetsOf(band), starts(grid))).toBeGreaterThan(0.98);
    expect(grid.irregularities).toEqual([]);
  });

  it('tiles the beats with bars', () => {
    let beat = 0;
    grid.bars.forEach((bar, i) => {
      expect(bar.firstBeat).toBe(beat);
      expect(bar.start).toBe(grid.beats[beat]);
      expect(bar.end).toBeCloseTo(grid.bars[i + 1]?.start ?? bar.end, 9);
      beat += bar.beats;
    });
    expect(beat).toBe(grid.beats.length);
  });

  it('weighs its readings: they sum to 1, the chosen one first', () => {
    for (const readings of [grid.tempo.alternatives, grid.downbeat.alternatives, grid.beatPhase.alternatives]) {
      expect(readings.reduce((sum, r) => sum + r.weight, 0)).toBeCloseTo(1, 6);
    }
    expect(grid.tempo.alternatives[0].bpm).toBeCloseTo(grid.tempo.bpm, 3);
    expect(grid.downbeat.alternatives[0].shiftBeats).toBe(0);
  });
});

describe('what must not change a grid', () => {
  const band = steady(132, 128);
  const samples = playBand(band);
  const plain = findGrid(hear(samples));

  it('shifts every time by the silence put before the music', () => {
    const late = new Float32Array(samples.length + Math.round(0.237 * ANALYSIS_RATE));
    late.set(samples, late.length - samples.length);
    const grid = findGrid(hear(late));
    expect(
      fMeasure(
        starts(plain).map((t) => t + 0.237),
        starts(grid),
        0.002,
      ),
    ).toBeGreaterThan(0.98);
  });

  it('is the same 20 dB softer', () => {
    const grid = findGrid(hear(samples.map((x) => x / 10)));
    expect(grid.tempo.bpm).toBeCloseTo(plain.tempo.bpm, 3);
    expect(fMeasure(starts(plain), starts(grid), 0.002)).toBeGreaterThan(0.99);
  });

  it('is the same with the right channel turned over or silent', () => {
    const grid = findGrid(
      hear(
        samples,
        samples.map((x) => 0.3 * x),
      ),
    );
    expect(fMeasure(starts(plain), starts(grid), 0.002)).toBeGreaterThan(0.99);
  });

  it('is 1.03 times as fast when the music is', () => {
    const fast = steady(132 * 1.03, 128, 0.1 / 1.03);
    const grid = findGrid(hear(playBand(fast)));
    expect(grid.tempo.bpm / plain.tempo.bpm).toBeCloseTo(1.03, 4);
    expect(grid.bars.length).toBe(plain.bars.length);
  });
});

describe('a grid on music that leaves its pattern', () => {
  it('goes on right after two dropped beats, and names the bar', () => {
    const { beats } = steady(128, 222);
    // 28 bars of four, one of two, then bars of four to the end
    const downbeats = [
      ...Array.from({ length: 29 }, (_, i) => i * 4),
      ...Array.from({ length: 27 }, (_, i) => 114 + i * 4),
    ];
    const grid = findGrid(hear(playBand({ beats, downbeats })));
    expect(
      fMeasure(
        downbeats.map((d) => beats[d]),
        starts(grid),
      ),
    ).toBeGreaterThan(0.98);
    expect(grid.irregularities.map(({ kind, bar }) => [kind, bar])).toEqual([['dropped-beats', 29]]);
  });

  it('follows a drummer who wanders by 1.5 %', () => {
    const random = randomNumbers(5);
    const beats = [0.2];
    for (let i = 1; i < 200; i++) beats.push(beats[i - 1] + (60 / 104) * (1 + 0.015 * Math.sin(i / 17)));
    const played = beats.map((t) => t + 0.004 * (random() - 0.5));
    const grid = findGrid(hear(playBand({ beats: played, downbeats: Array.from({ length: 50 }, (_, i) => i * 4) })));
    expect(grid.tempo.steadiness).toBe('drifting');
    expect(fMeasure(beats, grid.beats)).toBeGreaterThan(0.95);
    expect(grid.irregularities.map((i) => i.kind)).toContain('drift');
  });

  it('runs back through a beatless opening', () => {
    const band = steady(126, 192);
    const grid = findGrid(hear(playBand({ ...band, drumless: [[0, 64]] })));
    expect(fMeasure(band.beats, grid.beats)).toBeGreaterThan(0.98);
    expect(grid.irregularities.map((i) => i.kind)).toContain('beatless-passage');
  });

  it('counts three to the bar in a waltz', () => {
    const band = steady(112, 168, 0.1, 3);
    const grid = findGrid(hear(playBand({ ...band, style: 'waltz' })));
    expect(grid.metre.beatsPerBar).toBe(3);
    expect(fMeasure(onsetsOf(band), starts(grid))).toBeGreaterThan(0.95);
  });
});

describe("a person's word", () => {
  const band = steady(174, 256);
  const frontEnd = hear(playBand({ ...band, style: 'two' }));

  it('settles the level of the tempo', () => {
    expect(findGrid(frontEnd, { tempo: 87 }).tempo.bpm).toBeCloseTo(87, 1);
    expect(findGrid(frontEnd, { tempo: 174 }).tempo.bpm).toBeCloseTo(174, 1);
    expect(findGrid(frontEnd, { tempoRange: [80, 100] }).tempo.bpm).toBeCloseTo(87, 1);
  });

  it('moves the one', () => {
    const one = band.beats[42];
    const grid = findGrid(frontEnd, { tempo: 174, downbeatAt: one });
    expect(Math.min(...starts(grid).map((t) => Math.abs(t - one)))).toBeLessThan(0.02);
  });
});

describe('what has no beat', () => {
  const codeOf = (samples: Float32Array) => {
    try {
      findGrid(hear(samples));
      return 'none';
    } catch (error) {
      return error instanceof BarwiseError ? error.code : String(error);
    }
  };

  it('is refused with its own code: silence, a few seconds, noise', () => {
    const random = randomNumbers(9);
    expect(codeOf(new Float32Array(20 * ANALYSIS_RATE))).toBe('silent');
    expect(codeOf(playBand(steady(120, 8)).subarray(0, 3 * ANALYSIS_RATE))).toBe('too-short');
    expect(codeOf(Float32Array.from({ length: 30 * ANALYSIS_RATE }, () => random() - 0.5))).toBe('no-steady-beat');
  });

  it('is free where it is counted only because somebody said so', () => {
    const random = randomNumbers(9);
    const noise = hear(Float32Array.from({ length: 30 * ANALYSIS_RATE }, () => random() - 0.5));
    expect(findGrid(noise, { tempo: 120 }).tempo.steadiness).toBe('free');
    expect(findGrid(hear(playBand(steady(120, 64))), { tempo: 120 }).tempo.steadiness).toBe('constant');
  });
});
