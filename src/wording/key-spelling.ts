import type { Mode, PitchClass } from '../units/index.js';

/** Tonics that are written with a flat, by mode. */
const FLAT: Readonly<Record<Mode, Readonly<Partial<Record<PitchClass, string>>>>> = {
  major: { 'C#': 'Db', 'D#': 'Eb', 'G#': 'Ab', 'A#': 'Bb' },
  minor: { 'A#': 'Bb' },
};

/**
 * The name of a tonic as it is written in music: of the two names of a key the one with fewer sharps or flats in its
 * signature, sharps where both have six. Elementary music theory, common practice.
 * @example spelledTonic('A#', 'major') // 'Bb': two flats, where A# major would have ten sharps
 */
export function spelledTonic(tonic: PitchClass, mode: Mode): string {
  return FLAT[mode][tonic] ?? tonic;
}
