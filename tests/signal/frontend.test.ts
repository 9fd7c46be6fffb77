import { describe, expect, it } from 'vitest';
import { ANALYSIS_RATE, BAND_COUNT, BAND_EDGES, COARSE, bandColumns, createFrontEnd } from '../../src/signal/index.js';
import { PITCH_CLASSES } from '../../src/units/index.js';
import { hear } from '../rhythm/drums.js';

const sine = (hertz: number, seconds: number, level = 1) =>
  Float32Array.from(
    { length: seconds * ANALYSIS_RATE },
    (_, i) => level * Math.sin((2 * Math.PI * hertz * i) / ANALYSIS_RATE),
  );

function loudestColumn(row: ArrayLike<number>, from: number, columns: number): number {
  let best = 0;
  for (let c = 1; c < columns; c++) if (row[from + c] > row[from + best]) best = c;
  return best;
}

describe('the front end', () => {
  it('has band edges that ascend from the first bin to 16 kHz', () => {
    expect(BAND_EDGES.length).toBe(BAND_COUNT + 1);
    expect(BAND_EDGES.every((e, i) => i === 0 || e > BAND_EDGES[i - 1])).toBe(true);
    expect(BAND_EDGES[BAND_COUNT]).toBe(16_000);
  });

  it('puts a sine into the band that holds its frequency', () => {
    for (const hertz of [64, 330, 2500, 9000]) {
      const { bands } = hear(sine(hertz, 1));
      const column = loudestColumn(bands.values, 50 * bands.columns, bands.columns);
      expect(BAND_EDGES[column] - ANALYSIS_RATE / COARSE.window).toBeLessThan(hertz);
      expect(BAND_EDGES[column + 1] + ANALYSIS_RATE / COARSE.window).toBeGreaterThan(hertz);
    }
  });

  it('keeps a click at its own millisecond', () => {
    const samples = new Float32Array(2 * ANALYSIS_RATE);
    const at = 1.2345;
    samples[Math.round(at * ANALYSIS_RATE)] = 0.8;
    const { fine } = hear(samples);
    const energies = Array.from({ length: fine.rows }, (_, r) => fine.values[r * fine.columns]);
    const row = energies.indexOf(Math.max(...energies));
    expect(fine.start + row / fine.rate).toBeCloseTo(at, 3);
  });

  it('names the pitch class of A4 = 440 Hz (ISO 16), and of middle C, 261.63 Hz (derived)', () => {
    for (const [hertz, name] of [
      [440, 'A'],
      [261.63, 'C'],
    ] as const) {
      const { chroma } = hear(sine(hertz, 2));
      expect(PITCH_CLASSES[loudestColumn(chroma.values, 12 * 12, 12)]).toBe(name);
    }
  });

  it('gives the same numbers however the samples are cut into blocks', () => {
    const samples = sine(300, 2.5, 0.4).map((x, i) => x + (i % 9000 === 0 ? 0.5 : 0));
    const whole = hear(samples);
    const builder = createFrontEnd();
    for (let i = 0; i < samples.length; i += 777)
      builder.push(samples.subarray(i, i + 777), samples.subarray(i, i + 777));
    const pieces = builder.finish();
    for (const name of ['bands', 'stereo', 'fine', 'chroma'] as const) {
      expect(pieces[name].rows).toBe(whole[name].rows);
      const differs = pieces[name].values.findIndex((v, i) => Math.abs(v - whole[name].values[i]) > 1e-6 * (1 + v));
      expect(differs, name).toBe(-1);
    }
  });

  it('scales with the square of the gain and changes in nothing else', () => {
    const loud = hear(sine(220, 1, 0.8));
    const soft = hear(sine(220, 1, 0.08));
    const row = 40 * loud.bands.columns;
    const column = loudestColumn(loud.bands.values, row, loud.bands.columns);
    expect(loud.bands.values[row + column] / soft.bands.values[row + column]).toBeCloseTo(100, 1);
  });

  it('counts samples that are no numbers as silence', () => {
    const samples = sine(220, 1, 0.5);
    samples[500] = NaN;
    samples[600] = Infinity;
    const frontEnd = hear(samples);
    expect(Number.isFinite(frontEnd.meanPower)).toBe(true);
    expect(frontEnd.bands.values.every(Number.isFinite)).toBe(true);
  });

  it('hears the side of a stereo signal, and none in a mono one', () => {
    const left = sine(220, 1, 0.5);
    const right = left.map((x) => -x);
    const wide = hear(left, right).stereo;
    expect(wide.values[41 * 2]).toBeLessThan(1e-9);
    expect(wide.values[41 * 2 + 1]).toBeGreaterThan(0.05);
    expect(hear(left).stereo.values[41 * 2 + 1]).toBe(0);
  });

  it('finds the columns of a frequency range', () => {
    const { first, last } = bandColumns(30, 120);
    expect(BAND_EDGES[first]).toBeGreaterThan(20);
    expect(BAND_EDGES[last]).toBeLessThan(140);
    expect(last).toBeGreaterThan(first);
  });
});
