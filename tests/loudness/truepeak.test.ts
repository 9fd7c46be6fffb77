import { describe, expect, it } from 'vitest';
import { createPeakFollower } from '../../src/loudness/truepeak.js';
import { createKernels } from '../../src/signal/index.js';
import { randomNumbers } from '../../src/units/index.js';

const RATE = 44_100;
const chance = randomNumbers(3);

function peakOf(samples: Float32Array, ...cuts: number[]): number {
  const follower = createPeakFollower(RATE, createKernels());
  [0, ...cuts].forEach((from, i) => follower.push(samples.subarray(from, cuts[i])));
  return follower.finish();
}

/** Soft noise with one crest between two samples of 0.5, at half way 0.637 = 0.5 · 4/π by the ideal interpolation of two. */
function crestAt(place: number): Float32Array {
  const samples = Float32Array.from({ length: 20_000 }, () => 0.02 * (chance() - 0.5));
  samples[place] = samples[place + 1] = 0.5;
  return samples;
}

describe('the true peak', () => {
  // Every place relative to the four samples that are looked at together and to the pieces of 4096.
  it.each([0, 1, 2, 3, 4, 4094, 4095, 4096, 8191, 19_997, 19_998])(
    'finds a crest between samples %i and the next',
    (place) => {
      const peak = peakOf(crestAt(place));
      expect(peak).toBeGreaterThan(0.6);
      expect(peak).toBeLessThan(0.68);
    },
  );

  it('is the same to the bit however the samples come', () => {
    const samples = Float32Array.from({ length: 20_000 }, (_, i) => chance() * Math.sin(i / 9));
    const whole = peakOf(samples);
    expect(peakOf(samples, 1, 3, 4097, 4100, 12_345)).toBe(whole);
    expect(whole).toBeGreaterThanOrEqual(Math.max(...samples.map(Math.abs)));
  });

  it('passes over what is no number', () => {
    const samples = crestAt(5000);
    samples[300] = NaN;
    samples[301] = Infinity;
    samples[302] = -Infinity;
    expect(peakOf(samples)).toBeLessThan(0.68);
    expect(peakOf(samples)).toBeGreaterThan(0.6);
  });
});
