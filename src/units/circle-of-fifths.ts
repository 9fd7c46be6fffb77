import { PITCH_CLASSES, type Mode, type PitchClass } from './vocabulary.js';

/** A key by its tonic and mode. @public */
export interface NamedKey {
  readonly tonic: PitchClass;
  readonly mode: Mode;
}

/** Semitones from a minor key's tonic up to that of its relative major, which has the same notes. */
const TO_RELATIVE_MAJOR = 3;
/** A fifth in semitones; it is its own inverse modulo 12. */
const FIFTH = 7;

/** Place of a key's notes on the circle of fifths, 0 (C major, A minor) to 11, upwards by fifths. @public */
export function circlePlace({ tonic, mode }: NamedKey): number {
  const major = PITCH_CLASSES.indexOf(tonic) + (mode === 'minor' ? TO_RELATIVE_MAJOR : 0);
  return (major * FIFTH) % 12;
}

/**
 * The key of a mode at a place of the circle of fifths.
 * @public
 * @example keyAt(1, 'minor') // { tonic: 'E', mode: 'minor' }
 */
export function keyAt(place: number, mode: Mode): NamedKey {
  const major = place * FIFTH;
  return { tonic: PITCH_CLASSES[(major + (mode === 'minor' ? 12 - TO_RELATIVE_MAJOR : 0)) % 12], mode };
}
