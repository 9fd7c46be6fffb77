import FFT from 'fft.js';
import { describe, expect, it, vi } from 'vitest';
import { realFft } from '../../src/signal/fft.js';
import { createDecimator } from '../../src/signal/decimator.js';
import { createKernels } from '../../src/signal/kernels/kernels.js';

const noise = (n: number) => Float32Array.from({ length: n }, (_, i) => Math.sin(i * i * 0.37) * 0.7);

describe('realFft', () => {
  it.each([32, 2048, 4096])('gives the bins of a reference transform in double precision, for %i samples', (n) => {
    const samples = noise(n);
    const plan = realFft(n);
    plan.input().set(samples);
    const ours = plan.transform();
    // fft.js, a radix-4 transform of its own making, is the reference here.
    const reference = new Float64Array(2 * n);
    const fft = new FFT(n);
    fft.realTransform(reference, Float64Array.from(samples));
    const scale = Math.max(...reference.map(Math.abs));
    expect(ours[0] / scale).toBeCloseTo(reference[0] / scale, 6);
    expect(ours[1] / scale).toBeCloseTo(reference[n] / scale, 6);
    for (let k = 2; k < n; k++) expect(ours[k] / scale, `number ${k}`).toBeCloseTo(reference[k] / scale, 6);
  });

  it('works on after a later, larger transform has made its memory grow', () => {
    const first = realFft(64);
    realFft(2 ** 22);
    first.input().fill(1);
    expect(first.transform()[0]).toBeCloseTo(64, 4);
  });

  it('says what is missing when nobody has waited for it', async () => {
    vi.resetModules();
    const fresh = await import('../../src/signal/fft.js');
    expect(() => fresh.realFft(64)).toThrow('wait for loadFft');
    await fresh.loadFft();
    expect(fresh.realFft(64).size).toBe(64);
  });

  it('is the same plan for the same size', () => {
    expect(realFft(2048)).toBe(realFft(2048));
  });
});

describe('createDecimator', () => {
  it('keeps every fourth sample across blocks of any length', () => {
    const signal = noise(10_000).map((_, i) => Math.sin(i / 40));
    const kernels = createKernels();
    const room = kernels.floats(signal.length);
    const start = (most: number) => {
      const decimate = createDecimator(kernels, most);
      return (samples: Float32Array) => {
        room.view.set(samples);
        return decimate.kept.view.slice(0, decimate(room, samples.length));
      };
    };
    const whole = start(signal.length)(signal);
    const decimate = start(200);
    const parts: number[] = [];
    for (let at = 0, k = 1; at < signal.length; at += k, k = (k * 7) % 113)
      parts.push(...decimate(signal.subarray(at, at + k)));
    expect(whole).toHaveLength(2500);
    parts.forEach((value, i) => expect(value).toBeCloseTo(whole[i], 6));
    expect(parts).toHaveLength(2500);
  });
});
