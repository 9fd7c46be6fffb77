import { describe, expect, it } from 'vitest';
import { computeCurves, layersChart, toSvg } from '../../src/charts/index.js';
import { phaseHistogram } from '../../src/charts/phase.js';
import { reduceMaximum } from '../../src/charts/reduce.js';
import { tempogram, TEMPO_RANGE } from '../../src/charts/tempogram.js';
import { createFrontEnd, type FrontEnd } from '../../src/signal/index.js';
import type { CurveSet } from '../../src/units/index.js';
import { sampleAnalysis } from '../support/sample-analysis.js';
import { everyChart } from './charts.js';
import { soundOf } from './sound.js';

const clicks = (bpm: number, seconds: number, rate = 100) => {
  const values = new Float32Array(seconds * rate);
  for (let t = 0.1; t < seconds; t += 60 / bpm) values[Math.round(t * rate)] = 1;
  return { values, columns: 1, rows: values.length, rate, start: 0 };
};

describe('the tempogram', () => {
  it.each([60, 87, 124, 174.5, 200])(
    'is strongest at the tempo of a click track, its doubles or halves: %f BPM',
    (bpm) => {
      const { values, tempos, rows } = tempogram(clicks(bpm, 40));
      const middle = Math.floor(rows / 2);
      const row = Array.from(values.subarray(middle * tempos.length, (middle + 1) * tempos.length));
      const best = tempos[row.indexOf(Math.max(...row))];
      const octaves = Math.log2(best / bpm);
      expect(Math.abs(octaves - Math.round(octaves))).toBeLessThan(0.03);
      const nearest = tempos.reduce((a, b) => (Math.abs(b - bpm) < Math.abs(a - bpm) ? b : a));
      expect(row[tempos.indexOf(nearest)]).toBeGreaterThan(0.85);
    },
  );

  it('stays within its range of tempos and between 0 and 1, also in silence', () => {
    const { tempos, values } = tempogram({ ...clicks(120, 20), values: new Float32Array(2000) });
    expect(tempos[0]).toBe(TEMPO_RANGE[0]);
    expect(tempos[tempos.length - 1]).toBeCloseTo(TEMPO_RANGE[1], 6);
    expect(values.every((v) => v === 0)).toBe(true);
  });
});

describe('reducing a curve to pixels', () => {
  it('keeps every peak, wherever it lies', () => {
    const values = new Float32Array(10_007);
    for (const peak of [0, 1, 4999, 10_006]) values[peak] = peak + 1;
    const curve = { values, columns: 1, rows: values.length, rate: 100, start: 0.005 };
    const { values: reduced, times } = reduceMaximum(curve, 0, { from: 0, to: 101 }, 300);
    expect(reduced.length).toBeLessThanOrEqual(301);
    expect(Math.max(...reduced)).toBe(10_007);
    expect(reduced.filter((v) => v > 0)).toHaveLength(3);
    expect(times.every((t, i) => i === 0 || t > times[i - 1])).toBe(true);
  });

  it('gives a close-up as it is', () => {
    const values = Float32Array.from([1, 2, 3, 4, 5]);
    const curve = { values, columns: 1, rows: 5, rate: 10, start: 0 };
    expect(reduceMaximum(curve, 0, { from: 0.1, to: 0.3 }, 100).values).toEqual([2, 3, 4]);
    expect(reduceMaximum(curve, 0, { from: 5, to: 6 }, 100).values).toEqual([]);
  });
});

describe('the curves of a track', () => {
  it('the grid that the sound was made on has its onsets on the beat', () => {
    const analysis = sampleAnalysis([{ function: 'main', phrases: [8], layers: ['kick'] }]);
    const sound = soundOf(analysis);
    const right = phaseHistogram(sound, analysis.beats);
    expect(right.low.indexOf(Math.max(...right.low))).toBe(0);
    expect(right.low.reduce((a, b) => a + b)).toBeCloseTo(1, 6);
    const late = analysis.beats.map((t, i) => t + ((analysis.beats[i + 1] ?? t + 0.48) - t) / 2);
    const wrong = phaseHistogram(sound, late);
    expect(wrong.low.indexOf(Math.max(...wrong.low))).toBe(right.bins / 2);
  });

  it('change peaks where the sections start', () => {
    const analysis = sampleAnalysis([
      { function: 'intro', phrases: [8], layers: ['kick', 'percussion'] },
      { function: 'main', phrases: [8], layers: ['bass', 'harmony'] },
      { function: 'outro', phrases: [8], layers: ['kick'] },
    ]);
    const { novelty, similarity } = computeCurves(soundOf(analysis), analysis);
    for (const part of ['low', 'chroma'] as const) {
      const curve = Array.from(novelty[part][4]);
      const peaks = curve.flatMap((v, b) =>
        v > 0.5 * Math.max(...curve) && v >= (curve[b - 1] ?? 0) && v > (curve[b + 1] ?? 0) ? [b] : [],
      );
      expect(peaks, part).toEqual([8, 16]);
    }
    expect(similarity.values[0]).toBe(1);
    expect(similarity.values[12 * similarity.bars]).toBeLessThan(0.6);
    expect(similarity.values[12 * similarity.bars]).toBe(similarity.values[12]);
  });

  it('louder or softer, the pictures stay the same', () => {
    const make = (gain: number): FrontEnd => {
      const samples = Float32Array.from({ length: 44_100 * 16 }, (_, i) => {
        const t = (i / 44_100) % 0.5;
        return gain * Math.exp(-t * 20) * Math.sin(2 * Math.PI * (60 + 400 * Math.floor((i / 44_100 / 8) % 2)) * t);
      });
      const builder = createFrontEnd();
      builder.push(samples, samples);
      return builder.finish();
    };
    const analysis = sampleAnalysis([{ function: 'main', phrases: [8], layers: ['kick'] }], { bpm: 120, firstOne: 0 });
    const [loud, soft] = [computeCurves(make(1), analysis), computeCurves(make(0.1), analysis)];
    const furthest = (a: Float32Array, b: Float32Array) => Math.max(...a.map((v, i) => Math.abs(v - b[i])));
    expect(furthest(loud.levels.values, soft.levels.values)).toBeLessThan(1e-3);
    expect(furthest(loud.similarity.values, soft.similarity.values)).toBeLessThan(1e-2);
  });
});

describe('speed', () => {
  it('a chart of a ten-minute track costs a small part of hearing the track once', async () => {
    const short = sampleAnalysis([{ function: 'main', phrases: [8], layers: ['kick', 'percussion', 'harmony'] }]);
    const begin = performance.now();
    const sound = soundOf(short);
    const hearing = (performance.now() - begin) * (600 / sound.duration);
    const long = sampleAnalysis(
      Array.from({ length: 19 }, () => ({ function: 'main' as const, phrases: [16], layers: ['kick' as const] })),
    );
    const tenMinutes = repeated(sound, 600 / sound.duration);
    const curves = computeCurves(tenMinutes, long);
    await toSvg(layersChart(short)); // loads vega
    const start = performance.now();
    const charts = Object.values(everyChart(curves, long, tenMinutes));
    for (const chart of charts) await toSvg(chart);
    expect((performance.now() - start) / charts.length).toBeLessThan(hearing / 8);
  });
});

/** The same sound over and over, as a front end would have heard it. */
function repeated(sound: FrontEnd, times: number): FrontEnd {
  const repeat = (set: CurveSet): CurveSet => {
    const rows = Math.floor(set.rows * times);
    const values = Float32Array.from({ length: rows * set.columns }, (_, i) => set.values[i % set.values.length]);
    return { ...set, rows, values };
  };
  const { bands, stereo, fine, chroma, duration } = sound;
  return {
    ...sound,
    duration: duration * times,
    bands: repeat(bands),
    stereo: repeat(stereo),
    fine: repeat(fine),
    chroma: repeat(chroma),
  };
}
