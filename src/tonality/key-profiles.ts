import { PITCH_CLASSES, type Mode, type PitchClass } from '../units/index.js';

/** The key whose notes come nearest to what was heard. */
export interface HeardKey {
  readonly tonic: PitchClass;
  readonly mode: Mode;
  /** Correlation with the profile of that key, up to 1; `NaN` where there was nothing to correlate. */
  readonly strength: number;
}

/**
 * How strong each pitch class is above the tonic of dance music, against the tonic, counted over tracks whose key is known: the
 * profiles *edma* of Faraldo, Gómez, Jordà and Herrera, "Key Estimation in Electronic Dance Music", ECIR 2016, to two places as
 * essentia.js has them.
 */
const PROFILES: Readonly<Record<Mode, readonly number[]>> = {
  major: [1, 0.29, 0.5, 0.4, 0.6, 0.56, 0.32, 0.8, 0.31, 0.45, 0.42, 0.39],
  minor: [1, 0.31, 0.44, 0.58, 0.33, 0.49, 0.29, 0.78, 0.43, 0.29, 0.53, 0.32],
};
/** Classes weaker than this share of the strongest count as silent. */
const GATE = 0.2;
const NOTHING: HeardKey = { tonic: 'C', mode: 'major', strength: NaN };

/**
 * The best of the 24 keys for a pitch class profile, by its correlation with profiles of keys (Krumhansl, "Cognitive
 * Foundations of Musical Pitch", 1990, chapter 4), as essentia's Key finds it.
 * @param profile power per pitch class, C first
 */
export function bestKey(profile: Float64Array): HeardKey {
  const strongest = Math.max(...profile);
  if (!(strongest > 0)) return NOTHING;
  const heard = fromMean(Array.from(profile, (power) => (power / strongest < GATE ? 0 : power / strongest)));
  let best = NOTHING;
  for (const mode of ['major', 'minor'] as const) {
    const wanted = fromMean(PROFILES[mode]);
    PITCH_CLASSES.forEach((tonic, shift) => {
      const strength = correlation(heard, wanted, shift);
      if (!(best.strength >= strength)) best = { tonic, mode, strength };
    });
  }
  return best;
}

/** How far each value lies from their mean. */
function fromMean(values: readonly number[]): number[] {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  return values.map((v) => v - mean);
}

/** Correlation of twelve classes with a profile whose tonic lies `shift` classes up; both about their means. */
function correlation(heard: readonly number[], wanted: readonly number[], shift: number): number {
  let [product, left, right] = [0, 0, 0];
  for (let i = 0; i < wanted.length; i++) {
    const h = heard[(i + shift) % heard.length];
    product += h * wanted[i];
    left += h * h;
    right += wanted[i] * wanted[i];
  }
  return product / Math.sqrt(left * right);
}
