import type { Fraction, Hertz } from '../units/index.js';
import type { OnsetCurves } from './onsets.js';
import { magnitudeNear, magnitudesBeside, phasors, type Phasors } from './phasors.js';

/** Multiples of the beat frequency whose Fourier magnitudes are added up, and their weights (methods, stage 2). */
const HARMONICS: readonly (readonly [number, number])[] = [
  [1, 1],
  [2, 1],
  [4, 0.5],
  [8, 0.25],
];

/** Blocks of half a second: within the search range a block's phase stays good up to the highest multiple. */
const BLOCK_ROWS = 50;

/** Search range on either side, as a share of the frequency. */
const RANGE = 0.012;

/** How well a beat frequency fits the whole track. */
export interface TempoFit {
  readonly frequency: Hertz;
  /** Σ weight · |X(kf)|. */
  readonly strength: number;
}

/** Parts of eight seconds: long enough for a rhythm to show, short enough for any tempo to hold. */
const PART_BLOCKS = 16;

/**
 * How much of the pulse at a frequency survives when the parts of a track are added up, against the parts each in its own
 * phase: near 1 where one clock drives the whole.
 */
export function steadiness({ all, rate, start }: OnsetCurves, frequency: Hertz): Fraction {
  let whole = 0;
  let apart = 0;
  for (const [k, weight] of HARMONICS) {
    if (k * frequency >= rate / 3) continue;
    const { re, im } = phasors(all, rate, start, k * frequency, PART_BLOCKS * BLOCK_ROWS);
    let [sumRe, sumIm] = [0, 0];
    re.forEach((r, i) => {
      [sumRe, sumIm] = [sumRe + r, sumIm + im[i]];
      apart += weight * Math.hypot(r, im[i]);
    });
    whole += weight * Math.hypot(sumRe, sumIm);
  }
  return apart > 0 ? whole / apart : 0;
}

/** The frequency near `frequency` at which the onsets of the whole track add up best, to about 1e−5 of it. */
export function refineTempo(onsets: OnsetCurves, frequency: Hertz, range = RANGE): TempoFit {
  const { all, rate, start, rows } = onsets;
  const sets = HARMONICS.filter(([k]) => k * frequency < rate / 3).map(
    ([k, weight]) => [phasors(all, rate, start, k * frequency, BLOCK_ROWS), k, weight] as const,
  );
  const strength = (f: Hertz) => sets.reduce((sum, [p, k, weight]) => sum + weight * magnitudeNear(p, k * f), 0);
  const highest = sets[sets.length - 1][1];
  let step = rate / rows / highest / 2.5;
  let best = frequency;
  let bestStrength = strength(frequency);
  const steps = Math.ceil((range * frequency) / step);
  const found = strengthsAround(sets, step, steps);
  for (let i = -steps; i <= steps; i++)
    if (found[i + steps] > bestStrength) [best, bestStrength] = [frequency + i * step, found[i + steps]];
  while (step > 1e-6 * frequency) {
    step /= 2;
    for (const f of [best - step, best + step]) {
      const s = strength(f);
      if (s > bestStrength) [best, bestStrength] = [f, s];
    }
  }
  return { frequency: best, strength: bestStrength };
}

/** Strengths at `steps` frequencies below, at, and above the one of the phasors. */
function strengthsAround(
  sets: readonly (readonly [Phasors, number, number])[],
  step: Hertz,
  steps: number,
): Float64Array {
  const strengths = new Float64Array(2 * steps + 1);
  const pair = new Float64Array(2);
  for (const [p, k, weight] of sets) {
    for (let i = 0; i <= steps; i++) {
      magnitudesBeside(p, k * i * step, pair);
      strengths[steps + i] += weight * pair[0];
      if (i > 0) strengths[steps - i] += weight * pair[1];
    }
  }
  return strengths;
}
