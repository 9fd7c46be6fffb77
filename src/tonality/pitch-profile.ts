import type { Hertz } from '../units/index.js';
import type { SpectralPeaks } from './spectral-peaks.js';

/** Reference pitch, ISO 16: A4 = 440 Hz, and its place among the classes C, C#, … B. */
const A4: Hertz = 440;
const CLASS_OF_A4 = 9;

/**
 * What a peak may be an overtone of: semitones below it and the weight of its power, for the first five partials. Octaves
 * fall into one class (1, 2 and 4 times the fundamental), and from the fifth on a partial counts less.
 * Source: Gómez, "Tonal Description of Polyphonic Audio for Music Content Processing", INFORMS Journal on Computing 2006.
 */
const PARTIALS = partials(5);

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

/**
 * Adds the power of peaks to a harmonic pitch class profile (C first).
 * @param lowest frequency in hertz of a peak that counts
 */
export function addPeaks(profile: Float64Array, peaks: SpectralPeaks, lowest: Hertz): void {
  for (let i = 0; i < peaks.count; i++) {
    const frequency = peaks.frequencies[i];
    if (frequency < lowest) continue;
    const pitch = CLASS_OF_A4 + 12 * Math.log2(frequency / A4);
    const power = peaks.magnitudes[i] ** 2;
    for (const { semitones, weight } of PARTIALS) addPitch(profile, pitch - semitones, power * weight);
  }
}

/** A pitch counts for the class it lies at, less the further off it is: nothing half a semitone away. */
function addPitch(profile: Float64Array, pitch: number, power: number): void {
  const nearest = Math.floor(pitch + 0.5);
  profile[((nearest % 12) + 12) % 12] += power * Math.cos(Math.PI * (pitch - nearest));
}
