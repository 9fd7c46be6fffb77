import { describe, expect, it } from 'vitest';
import { createLoudnessMeter, kWeighting } from '../../src/loudness/index.js';
import { measure, steppedSine, stereo } from './signals.js';

describe('K-weighting', () => {
  it('gives the published coefficients at 48 kHz', () => {
    // ITU-R BS.1770-4, tables 1 and 2 (via a public transcription)
    const [shelf, high] = kWeighting(48_000);
    const published = [
      [shelf.b, [1.53512485958697, -2.69169618940638, 1.19839281085285]],
      [shelf.a, [1, -1.69065929318241, 0.73248077421585]],
      [high.b, [1, -2, 1]],
      [high.a, [1, -1.99004745483398, 0.99007225036621]],
    ] as const;
    for (const [ours, theirs] of published) ours.forEach((v, i) => expect(v).toBeCloseTo(theirs[i], 12));
  });

  it('has the same response at every rate, but for the warping of the bilinear transform', () => {
    for (const rate of [8_000, 11_025, 16_000, 22_050, 32_000, 44_100, 88_200, 96_000, 176_400, 192_000]) {
      const tolerance = rate < 16_000 ? 0.25 : 0.06;
      for (const frequency of [40, 100, 500, 997]) {
        expect(Math.abs(gain(rate, frequency) - gain(48_000, frequency))).toBeLessThan(tolerance);
      }
    }
  });
});

describe('the loudness meter', () => {
  it('reads −3.01 LKFS for a full-scale 997 Hz sine in one front channel', () => {
    // ITU-R BS.1770-4, annex 1, section "Objective"
    for (const rate of [32_000, 44_100, 48_000, 96_000, 192_000]) {
      const x = steppedSine(rate, 997, [{ seconds: 2, dbfs: 0 }]);
      const silence = new Float32Array(x.length);
      expect(measure(rate, [x]).integratedLufs).toBeCloseTo(-3.01, 1);
      expect(measure(rate, [silence, x]).integratedLufs).toBeCloseTo(-3.01, 1);
      expect(measure(rate, [silence, silence, x, silence, silence, silence]).integratedLufs).toBeCloseTo(-3.01, 1);
    }
  });

  it('weighs surround channels by 1.41 and leaves the low-frequency channel out', () => {
    // ITU-R BS.1770-4, table 3; EBU Tech 3341 case 6: L R −28, C −24, Ls Rs −30 dBFS reads −23 LUFS (from memory)
    const level = (dbfs: number) => steppedSine(48_000, 1000, [{ seconds: 20, dbfs }]);
    const six = [level(-28), level(-28), level(-24), level(0), level(-30), level(-30)];
    expect(Math.abs(measure(48_000, six).integratedLufs! + 23)).toBeLessThanOrEqual(0.1);
  });

  it('does not depend on how the signal is cut into blocks', () => {
    const x = noise(44_100 * 4 + 77);
    const whole = measure(44_100, stereo(x), x.length);
    for (const size of [100, 4410, 65_536]) {
      const parts = measure(44_100, stereo(x), size);
      expect(parts.integratedLufs).toBeCloseTo(whole.integratedLufs!, 9);
      expect(parts.truePeakDbtp).toBeCloseTo(whole.truePeakDbtp!, 9);
      expect(parts.rangeLu).toBeCloseTo(whole.rangeLu!, 9);
    }
  });

  it('moves with the gain and nothing else', () => {
    const x = noise(44_100 * 5);
    const loud = measure(44_100, stereo(x));
    const soft = measure(44_100, stereo(x.map((v) => v * 0.1)));
    expect(soft.integratedLufs).toBeCloseTo(loud.integratedLufs! - 20, 4);
    expect(soft.truePeakDbtp).toBeCloseTo(loud.truePeakDbtp! - 20, 4);
    expect(soft.rangeLu).toBeCloseTo(loud.rangeLu!, 4);
  });

  it('finds the highest crest although it interpolates only where it may lie', () => {
    for (let seed = 1; seed <= 5; seed++) {
      const x = noise(20_000, seed);
      const { truePeakDbtp } = measure(44_100, [x]);
      expect(truePeakDbtp!).toBeGreaterThan(20 * Math.log10(densePeak(x)) - 0.2);
      expect(truePeakDbtp!).toBeLessThan(20 * Math.log10(densePeak(x)) + 0.1);
    }
  });

  it('says nothing about silence, and nothing that its windows are too long for', () => {
    expect(measure(44_100, stereo(new Float32Array(44_100 * 5)))).toEqual({
      integratedLufs: null,
      truePeakDbtp: null,
      rangeLu: null,
    });
    const short = measure(44_100, stereo(noise(44_100)));
    expect(short.rangeLu).toBeNull();
    expect(short.integratedLufs).not.toBeNull();
    expect(measure(44_100, stereo(noise(4_410))).integratedLufs).toBeNull();
    expect(createLoudnessMeter(44_100, 2).finish().integratedLufs).toBeNull();
  });

  it('takes samples that are no numbers for zero', () => {
    const x = noise(44_100 * 4);
    const clean = x.slice();
    for (const [i, v] of [[100, NaN], [50_000, Infinity], [90_000, -Infinity]] as const) { x[i] = v; clean[i] = 0; } // prettier-ignore
    expect(measure(44_100, [x]).integratedLufs).toBeCloseTo(measure(44_100, [clean]).integratedLufs!, 9);
    expect(measure(44_100, [x]).truePeakDbtp).toBeCloseTo(measure(44_100, [clean]).truePeakDbtp!, 1);
  });

  it('refuses rates and channel counts it is not defined for', () => {
    expect(() => createLoudnessMeter(4_000, 2)).toThrow(RangeError);
    expect(() => createLoudnessMeter(44_100, 7)).toThrow(RangeError);
    expect(() => createLoudnessMeter(44_100, 2).push([new Float32Array(1)])).toThrow(RangeError);
  });
});

/** Gain of both sections at a frequency in decibels. */
function gain(rate: number, frequency: number): number {
  const w = (2 * Math.PI * frequency) / rate;
  return kWeighting(rate).reduce((sum, { a, b }) => sum + 20 * Math.log10(magnitude(b, w) / magnitude(a, w)), 0);
}

function magnitude(c: readonly number[], w: number): number {
  const re = c.reduce((s, v, k) => s + v * Math.cos(k * w), 0);
  const im = c.reduce((s, v, k) => s + v * Math.sin(k * w), 0);
  return Math.hypot(re, im);
}

/** Seeded white noise, smoothed by the weights 1 3 3 1: 3 dB down at about 0.18 of the rate. */
function noise(length: number, seed = 7): Float32Array {
  let state = seed * 2_654_435_761;
  const white = () => ((state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0) / 2 ** 31 - 1) * 0.5;
  const x = new Float32Array(length);
  const recent = [0, 0, 0, 0];
  for (let i = 0; i < length; i++) {
    recent.pop();
    recent.unshift(white());
    x[i] = (recent[0] + 3 * recent[1] + 3 * recent[2] + recent[3]) / 8;
  }
  return x;
}

/** Highest value of the signal interpolated 16 times by a long windowed sinc: the slow way. */
function densePeak(x: Float32Array): number {
  let peak = 0;
  for (let n = 32; n < x.length - 32; n++) {
    if (Math.abs(x[n]) < 0.3) continue;
    for (let p = -8; p <= 8; p++) {
      let y = 0;
      for (let k = -24; k <= 24; k++) {
        const t = p / 16 - k;
        y +=
          x[n + k] *
          (t === 0 ? 1 : (Math.sin(Math.PI * t) / (Math.PI * t)) * (0.5 + 0.5 * Math.cos((Math.PI * t) / 25)));
      }
      peak = Math.max(peak, Math.abs(y));
    }
  }
  return peak;
}
