import { PITCH_CLASSES, type Mode, type PitchClass } from '../units/index.js';
import { askEssentia } from './kept-essentia.js';
import type { KeyLibrary } from './key-library.js';

/** The key whose notes come nearest to what was heard. */
export interface HeardKey {
  readonly tonic: PitchClass;
  readonly mode: Mode;
  /** Correlation with the profile of that key, up to 1; `NaN` where there was nothing to correlate. */
  readonly strength: number;
}

/** Profiles for dance music: Faraldo, Gómez, Jordà and Herrera, "Key Estimation in Electronic Dance Music", ECIR 2016. */
const PROFILE = 'edma';
/** Classes weaker than this share of the strongest count as silent. */
const GATE = 0.2;
/** Where essentia.js begins to count: on A. */
const FROM_A = 9;
const NOTHING: HeardKey = { tonic: 'C', mode: 'major', strength: NaN };
const FLATS: Readonly<Record<string, PitchClass>> = { Db: 'C#', Eb: 'D#', Gb: 'F#', Ab: 'G#', Bb: 'A#' };

/**
 * The best of the 24 keys for each pitch class profile, by its correlation with profiles of keys (Krumhansl, "Cognitive
 * Foundations of Musical Pitch", 1990, chapter 4), as essentia.js' Key finds it. The library is asked
 * in this thread; it is kept for the next track.
 * @param profiles power per pitch class, C first
 */
export function bestKeys(profiles: readonly Float64Array[]): HeardKey[] {
  return profiles.map((profile) =>
    Math.max(...profile) > 0 ? askEssentia((library) => best(library, profile)) : NOTHING,
  );
}

function best(library: KeyLibrary, profile: Float64Array): HeardKey {
  const { key, scale, strength } = library.key(Float32Array.from(fromA(gated(profile))), PROFILE);
  return { tonic: tonicOf(key), mode: scale, strength };
}

function gated(profile: Float64Array): number[] {
  const strongest = Math.max(...profile);
  return Array.from(profile, (power) => (power / strongest < GATE ? 0 : power / strongest));
}

function fromA(profile: readonly number[]): number[] {
  return profile.map((_, i) => profile[(i + FROM_A) % profile.length]);
}

function tonicOf(name: string): PitchClass {
  const tonic = FLATS[name] ?? PITCH_CLASSES.find((p) => p === name);
  if (tonic === undefined) throw new Error(`essentia.js named an unknown note: ${name}`);
  return tonic;
}
