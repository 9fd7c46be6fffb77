import { describe, expect, it } from 'vitest';
import { createClippingCounter, createPolarity } from '../../src/audio/index.js';
import { noise, tone } from './support/signals.js';

const RATE = 44_100;
const music = noise(RATE, 3);

describe('createPolarity', () => {
  it('turns a mirrored channel back, whatever its level', () => {
    for (const level of [1, 0.2]) {
      const polarity = createPolarity();
      const right = polarity.right(
        music,
        music.map((x) => -level * x),
      );
      expect(polarity.inverted).toBe(true);
      right.forEach((x, i) => expect(x).toBeCloseTo(level * music[i], 6));
    }
  });

  it('leaves stereo alone: the same, quite different, partly mirrored, one side silent', () => {
    const other = noise(RATE, 99);
    const wide = music.map((x, i) => -0.5 * x + other[i]);
    for (const right of [music.slice(), other, wide, new Float32Array(RATE)]) {
      const polarity = createPolarity();
      expect(polarity.right(music, right)).toBe(right);
      expect(polarity.inverted).toBe(false);
    }
  });

  it('waits for sound before it judges, and then holds', () => {
    const polarity = createPolarity();
    const silence = new Float32Array(RATE);
    polarity.right(silence, silence.slice());
    polarity.right(
      music,
      music.map((x) => -x),
    );
    expect(polarity.inverted).toBe(true);
    expect(polarity.right(music, music.slice())[100]).toBeCloseTo(-music[100], 6);
  });
});

describe('createClippingCounter', () => {
  const share = (samples: Float32Array) => {
    const counter = createClippingCounter();
    counter.push([samples]);
    return counter.share();
  };

  it('counts the tops of a sine that was driven too far as they follow from its gain', () => {
    // A sine of gain g is above 1 for the share 1 − (2/π)·asin(1/g) of its period (derived).
    for (const gain of [1.5, 2, 4]) {
      const driven = tone(RATE, 1, 100, gain).map((x) => Math.max(-1, Math.min(1, x)));
      expect(share(driven)).toBeCloseTo(1 - (2 / Math.PI) * Math.asin(1 / gain), 2);
    }
  });

  it('does not count a sine that reaches full scale, sound above it that is not cut, silence, or an offset', () => {
    expect(share(tone(RATE, 1, 100, 1))).toBeLessThan(0.02);
    expect(share(tone(RATE, 1, 1000, 1))).toBe(0);
    expect(share(tone(RATE, 1, 1000, 2))).toBe(0);
    expect(share(new Float32Array(RATE))).toBe(0);
    expect(share(new Float32Array(RATE).fill(0.5))).toBe(0);
  });
});
