import { MODES, PITCH_CLASSES, type Mode, type PitchClass } from '../units/index.js';

/** The key whose notes come nearest to what was heard. */
export interface HeardKey {
  readonly tonic: PitchClass;
  readonly mode: Mode;
  /** Correlation with the profile of that key, up to 1; `NaN` where there was nothing to correlate. */
  readonly strength: number;
}

/**
 * How much each step above the tonic sounds in dance music of a key, tonic first: the profiles `edma` of Faraldo, Gómez,
 * Jordà and Herrera, "Key Estimation in Electronic Dance Music", ECIR 2016, as they stand in essentia.
 */
const PROFILES: Readonly<Record<Mode, readonly number[]>> = {
  major: [1, 0.29, 0.5, 0.4, 0.6, 0.56, 0.32, 0.8, 0.31, 0.45, 0.42, 0.39],
  minor: [1, 0.31, 0.44, 0.58, 0.33, 0.49, 0.29, 0.78, 0.43, 0.29, 0.53, 0.32],
};
/** Classes weaker than this share of the strongest count as silent. */
const GATE = 0.2;

/**
 * The best of the 24 keys for a pitch class profile, by correlation.
 * Source: C. L. Krumhansl, "Cognitive Foundations of Musical Pitch" (1990), chapter 4.
 * @param profile power per pitch class, C first
 */
export function bestKey(profile: Float64Array): HeardKey {
  const strongest = Math.max(...profile);
  const gated = profile.map((power) => (power / strongest < GATE ? 0 : power / strongest));
  let best: HeardKey = { tonic: 'C', mode: 'major', strength: strongest > 0 ? -1 : NaN };
  for (const mode of MODES) {
    PITCH_CLASSES.forEach((tonic, steps) => {
      const strength = correlation(gated, PROFILES[mode], steps);
      if (strength > best.strength) best = { tonic, mode, strength };
    });
  }
  return best;
}

/** Pearson's correlation of a profile with another that starts `steps` later. */
function correlation(a: Float64Array, b: readonly number[], steps: number): number {
  const n = a.length;
  const [meanA, meanB] = [mean(a), mean(b)];
  let [product, squaresA, squaresB] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const x = a[i] - meanA;
    const y = b[(i - steps + n) % n] - meanB;
    product += x * y;
    squaresA += x * x;
    squaresB += y * y;
  }
  return product / Math.sqrt(squaresA * squaresB);
}

function mean(values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return sum / values.length;
}
