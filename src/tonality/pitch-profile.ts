import type { Hertz } from '../units/index.js';

/** Reference pitch, ISO 16: A4 = 440 Hz, and its place among the classes C, C#, … B. */
export const A4: Hertz = 440;
export const CLASS_OF_A4 = 9;

/**
 * What a peak may be an overtone of: semitones below it and the weight of its power, for the first five partials. Octaves
 * fall into one class (1, 2 and 4 times the fundamental), and from the fifth on a partial counts less.
 * Source: Gómez, "Tonal Description of Polyphonic Audio for Music Content Processing", INFORMS Journal on Computing 2006.
 */
export const PARTIALS = partials(5);

function partials(count: number): { readonly semitones: number; readonly weight: number }[] {
  const found: { semitones: number; strength: number }[] = [];
  for (let n = 1; n <= count; n++) {
    const octaves = Math.log2(n);
    const semitones = 12 * (octaves - Math.floor(octaves));
    const strength = 1 / Math.max(1, octaves / 2);
    const same = found.find((f) => Math.abs(f.semitones - semitones) < 1e-5);
    if (same) same.strength += strength;
    else found.push({ semitones, strength });
  }
  return found.map(({ semitones, strength }) => ({ semitones, weight: strength ** 2 }));
}
