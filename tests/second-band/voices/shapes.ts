/** Samples a second of everything here. */
export const RATE = 44_100;

/** A sound of `seconds` from a function of time. */
export function sound(seconds: number, wave: (t: number, i: number) => number): Float32Array {
  const out = new Float32Array(Math.max(1, Math.round(seconds * RATE)));
  for (let i = 0; i < out.length; i++) out[i] = wave(i / RATE, i);
  const fade = Math.min(out.length, 200);
  for (let i = 0; i < fade; i++) out[out.length - 1 - i] *= i / fade;
  return out;
}

/** A stream of white noise, the same for the same seed. */
export function hiss(seed: number): () => number {
  let x = (seed * 747796405 + 2891336453) >>> 0;
  return () => {
    x = (Math.imul(x, 1664525) + 1013904223) >>> 0;
    return x / 2 ** 31 - 1;
  };
}

/** Filters `x` in place by a two-pole state-variable filter (Chamberlin 1985, "Musical Applications of Microprocessors"). */
export function tone(
  x: Float32Array,
  kind: 'low' | 'high' | 'band',
  hertz: number | ((i: number) => number),
  resonance = 0.7,
): Float32Array {
  let low = 0;
  let band = 0;
  let f = 0;
  for (let i = 0; i < x.length; i++) {
    if (typeof hertz === 'number' ? i === 0 : i % 32 === 0) {
      const at = typeof hertz === 'number' ? hertz : hertz(i);
      f = 2 * Math.sin((Math.PI * Math.min(at, 7000)) / (2 * RATE));
    }
    let high = 0;
    // Twice for each sample: the filter is stable to a third of the doubled rate.
    for (let k = 0; k < 2; k++) {
      high = x[i] - low - band / resonance;
      band += f * high;
      low += f * band;
    }
    x[i] = kind === 'low' ? low : kind === 'high' ? high : band / resonance;
  }
  return x;
}

/** Scales to a peak of 1. */
export function full(x: Float32Array): Float32Array {
  let peak = 1e-9;
  for (const v of x) peak = Math.max(peak, Math.abs(v));
  return x.map((v) => v / peak);
}

/** Frequency of a note number (69 is 440 Hz). */
export const pitch = (note: number): number => 440 * 2 ** ((note - 69) / 12);
