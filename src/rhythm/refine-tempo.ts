import type { Hertz } from '../units/index.js';
import type { OnsetCurves } from './onsets.js';
import { magnitudeNear, phasors } from './phasors.js';

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
  for (let i = -steps; i <= steps; i++) {
    const f = frequency + i * step;
    const s = strength(f);
    if (s > bestStrength) [best, bestStrength] = [f, s];
  }
  while (step > 1e-6 * frequency) {
    step /= 2;
    for (const f of [best - step, best + step]) {
      const s = strength(f);
      if (s > bestStrength) [best, bestStrength] = [f, s];
    }
  }
  return { frequency: best, strength: bestStrength };
}
