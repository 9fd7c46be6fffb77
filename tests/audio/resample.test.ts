import { ConverterType, create } from '@alexanderolsen/libsamplerate-js';
import { describe, expect, it } from 'vitest';
import { resampleTo, type AudioBlock, type AudioSource } from '../../src/audio/index.js';
import { click, difference, findClick, noise, tone } from './support/signals.js';

function sourceOf(samples: Float32Array, sampleRate: number, block = 4096): AudioSource {
  return {
    sampleRate,
    channels: 1,
    frames: samples.length,
    // eslint-disable-next-line @typescript-eslint/require-await
    async *blocks(): AsyncGenerator<AudioBlock> {
      for (let at = 0; at < samples.length; at += block) yield [samples.subarray(at, at + block)];
    },
    close: () => Promise.resolve(),
  };
}

async function convert(samples: Float32Array, from: number, to: number, block?: number): Promise<Float32Array> {
  const parts: Float32Array[] = [];
  for await (const [part] of resampleTo(sourceOf(samples, from, block), to).blocks()) parts.push(part);
  const out = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

const decibels = (ratio: number) => 20 * Math.log10(Math.max(ratio, 1e-12));

/** Amplitude and delay of a sine in the middle of a signal, by least squares, and the level of everything else. */
function measure(samples: Float32Array, rate: number, hertz: number) {
  const w = (2 * Math.PI * hertz) / rate;
  const from = Math.floor(samples.length * 0.2);
  const to = Math.floor(samples.length * 0.8);
  let [cc, ss, cs, xc, xs] = [0, 0, 0, 0, 0];
  for (let i = from; i < to; i++) {
    const [c, s] = [Math.cos(w * i), Math.sin(w * i)];
    cc += c * c;
    ss += s * s;
    cs += c * s;
    xc += samples[i] * c;
    xs += samples[i] * s;
  }
  const det = cc * ss - cs * cs;
  const a = (xc * ss - xs * cs) / det;
  const b = (xs * cc - xc * cs) / det;
  let rest = 0;
  for (let i = from; i < to; i++) rest += (samples[i] - a * Math.cos(w * i) - b * Math.sin(w * i)) ** 2;
  const amplitude = Math.hypot(a, b);
  return {
    amplitude,
    /** Seconds by which the sine is late; 0 for a sine that starts at the first sample. */
    delay: Math.atan2(-a, b) / (2 * Math.PI * hertz),
    rest: Math.sqrt((2 * rest) / (to - from)),
  };
}

const PAIRS = [
  [48000, 44100],
  [96000, 44100],
  [192000, 44100],
  [88200, 44100],
  [44100, 48000],
  [22050, 44100],
  [8000, 44100],
  [44099, 44100],
] as const;

describe('the resampler', () => {
  for (const [from, to] of PAIRS) {
    const edge = 0.86 * Math.min(from, to) * 0.5;

    it(`keeps the pass band from ${from} to ${to} Hz: level, time, and nothing added`, async () => {
      for (const hertz of [100, edge * 0.3, edge * 0.9, edge]) {
        const out = measure(await convert(tone(from, 0.5, hertz), from, to), to, hertz);
        expect(Math.abs(decibels(out.amplitude / 0.5))).toBeLessThan(0.01);
        expect(Math.abs(out.delay)).toBeLessThan(1e-6);
        expect(decibels(out.rest / 0.5)).toBeLessThan(-80);
      }
    });

    it.runIf(from > to)(`keeps what would alias from ${from} to ${to} Hz 80 dB down`, async () => {
      for (const share of [0.02, 0.1, 0.3, 0.6, 0.95]) {
        const hertz = to / 2 + share * (from / 2 - to / 2);
        const out = await convert(tone(from, 0.5, hertz), from, to);
        const middle = out.subarray(out.length >> 2, (out.length * 3) >> 2);
        const level = Math.sqrt((2 * middle.reduce((sum, x) => sum + x * x, 0)) / middle.length);
        expect(decibels(level / 0.5)).toBeLessThan(-80);
      }
    });

    it(`gives one sample for every step of time from ${from} to ${to} Hz`, async () => {
      for (const length of [1, 2, 100, 4096, 10007]) {
        const out = await convert(noise(length), from, to);
        expect(out.length).toBe(Math.ceil((length * to) / from));
        expect(resampleTo(sourceOf(noise(length), from), to).frames).toBe(out.length);
      }
    });
  }

  it.each([
    [48000, 44100],
    [44100, 48000],
    [96000, 44100],
  ])('agrees with libsamplerate at its best quality from %i to %i Hz', async (from, to) => {
    // a chord inside the pass band, swelling and fading; reference: libsamplerate 0.2 (E. de Castro Lopo), sinc, best
    const samples = new Float32Array(from).map((_, i) => {
      const t = i / from;
      const swell = Math.sin(Math.PI * t) ** 2 * 0.2;
      return swell * [110, 1000, 5003, 12011].reduce((sum, hertz) => sum + Math.sin(2 * Math.PI * hertz * t), 0);
    });
    const converter = await create(1, from, to, { converterType: ConverterType.SRC_SINC_BEST_QUALITY });
    const reference = converter.simple(samples);
    const ours = await convert(samples, from, to);
    converter.destroy();
    expect(Math.abs(reference.length - ours.length)).toBeLessThanOrEqual(1);
    expect(decibels(difference(ours, reference, 1000, to - 1000) / 0.8)).toBeLessThan(-90);
  });

  it('leaves a click where it was', async () => {
    for (const [from, to] of PAIRS.slice(0, 5)) {
      const out = await convert(click(from, 1.2), from, to);
      expect(Math.abs(findClick(out, to) - 1)).toBeLessThan(0.0001);
    }
  });

  it('gives the same samples however the input is cut into blocks', async () => {
    const samples = noise(20000);
    const whole = await convert(samples, 48000, 44100, 20000);
    for (const block of [1, 7, 1000]) {
      const cut = await convert(samples, 48000, 44100, block);
      expect(cut.length).toBe(whole.length);
      expect(difference(cut, whole)).toBe(0);
    }
  });

  it('hands a source back that has the rate already', () => {
    const source = sourceOf(noise(10), 44100);
    expect(resampleTo(source, 44100)).toBe(source);
  });

  it('refuses a rate that is no whole number', () => {
    expect(() => resampleTo(sourceOf(noise(10), 44100), 22050.5)).toThrow(/whole number of hertz/);
  });
});
