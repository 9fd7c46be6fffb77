import { PITCH_CLASSES, type Mode, type PitchClass } from '../units/index.js';
import type { EssentiaThread } from './essentia.js';
import { askEssentia } from './kept-essentia.js';

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
 * once a track, in a thread of its own that serves one track after the other.
 * @param profiles power per pitch class, C first
 */
export async function bestKeys(profiles: readonly Float64Array[]): Promise<HeardKey[]> {
  const sounding = profiles.filter((p) => Math.max(...p) > 0);
  if (sounding.length === 0) return profiles.map(() => NOTHING);
  const found = await askEssentia((thread) => askAll(thread, sounding));
  return profiles.map((p) => found[sounding.indexOf(p)] ?? NOTHING);
}

async function askAll(thread: EssentiaThread, profiles: readonly Float64Array[]): Promise<HeardKey[]> {
  const classes = Float32Array.from(profiles.flatMap((p) => fromA(gated(p))));
  const found = await thread.keys(classes, PROFILE);
  return found.map(({ key, scale, strength }) => ({ tonic: tonicOf(key), mode: scale, strength }));
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
