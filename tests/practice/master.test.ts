import { describe, expect, it } from 'vitest';
import { createLoudnessMeter } from '../../src/loudness/index.js';
import { limit } from '../../src/practice/mix/limiter.js';
import { master, measure } from '../../src/practice/mix/master.js';

const RATE = 44_100;

/** EBU Tech 3341, case 1: a stereo sine of 1 kHz at so many dBFS reads as many LUFS. */
function sine(level: number, seconds = 5) {
  const make = () =>
    Float32Array.from(
      { length: seconds * RATE },
      (_, i) => 10 ** (level / 20) * Math.sin((2 * Math.PI * 1000 * i) / RATE),
    );
  return { left: make(), right: make() };
}

describe('mastering', () => {
  it('brings the signal of EBU Tech 3341 case 1, −23 LUFS, to −16', () => {
    const sound = sine(-23);
    expect(measure(sound).integratedLufs).toBeCloseTo(-23, 1);
    const level = master(sound);
    expect(level.integratedLufs).toBeCloseTo(-16, 1);
    const meter = createLoudnessMeter(RATE, 2);
    meter.push([sound.left, sound.right]);
    expect(meter.finish().integratedLufs).toBeCloseTo(-16, 1);
    expect(level.softer).toBe(false);
  });

  it('holds single peaks down rather than making all of it soft', () => {
    const sound = sine(-18);
    for (let i = RATE; i < sound.left.length; i += RATE / 2) sound.left[i] = 0.9;
    const level = master(sound);
    expect(measure(sound).truePeakDbtp).toBeLessThanOrEqual(-1);
    expect(level.integratedLufs).toBeCloseTo(-16, 0);
  });

  it('is softer where peaks stand too high, and says so', () => {
    const sound = { left: new Float32Array(5 * RATE), right: new Float32Array(5 * RATE) };
    for (let i = 0; i < 5; i++) sound.left[i * RATE + 100] = 1;
    const level = master(sound);
    expect(level.softer).toBe(true);
    expect(measure(sound).truePeakDbtp).toBeLessThanOrEqual(-1);
  });

  it('never lets a sample over the ceiling, and leaves what is far from peaks as it was', () => {
    const sound = sine(-6, 1);
    for (let i = 0; i < 100; i++) sound.right[20_000 + i] *= 1.9;
    const before = sound.left.slice();
    limit(sound, 0.6);
    const largest = (samples: Float32Array) => samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
    expect(Math.max(largest(sound.left), largest(sound.right))).toBeLessThanOrEqual(0.6 + 1e-6);
    expect(sound.left[1000]).toBe(before[1000]);
    expect(Math.abs(sound.left[20_050])).toBeLessThan(Math.abs(before[20_050]) + 1e-9);
  });
});
